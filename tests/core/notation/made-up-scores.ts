import {
  NO_SIGNS,
  type Score,
  type ScoreMeasure,
  type ScoreNote,
} from '../../../src/lib/core/notation/score';
import { rational } from '../../../src/lib/core/rhythm/rational';

/** A note of an eighth; `place` in eighths. */
export function eighth(place: number, pitch: number): ScoreNote {
  return { onset: rational(place, 8), duration: [1, 8], pitch };
}

/** A 2/4 measure of as many eighths as pitches. */
export function bar(pitches: readonly number[], change: Partial<ScoreMeasure> = {}): ScoreMeasure {
  return {
    line: 1,
    column: 1,
    meter: { count: 2, unit: 4 },
    length: rational(pitches.length, 8),
    notes: pitches.map((pitch, place) => eighth(place, pitch)),
    labels: [],
    ...NO_SIGNS,
    ...change,
  };
}

export function scoreOf(measures: readonly ScoreMeasure[], change: Partial<Score> = {}): Score {
  return {
    number: 1,
    title: 'The Winter Well',
    key: 'G',
    meter: { count: 2, unit: 4 },
    tempo: 90,
    tuning: null,
    capo: null,
    voices: [{ name: 'melody', measures }],
    order: null,
    warnings: [],
    ...change,
  };
}
