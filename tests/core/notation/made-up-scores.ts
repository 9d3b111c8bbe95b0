import type { Score, ScoreMeasure, ScoreNote } from '../../../src/lib/core/notation/score';

/** A note of an eighth; `place` in eighths. */
export function eighth(place: number, pitch: number): ScoreNote {
  return { onset: place % 8 === 0 ? [place / 8, 1] : reduce(place, 8), duration: [1, 8], pitch };
}

function reduce(a: number, b: number): readonly [number, number] {
  const common = (x: number, y: number): number => (y === 0 ? x : common(y, x % y));
  const by = common(a, b);
  return [a / by, b / by];
}

/** A 2/4 measure of as many eighths as pitches. */
export function bar(pitches: readonly number[], change: Partial<ScoreMeasure> = {}): ScoreMeasure {
  return {
    line: 1,
    column: 1,
    meter: { count: 2, unit: 4 },
    length: reduce(pitches.length, 8),
    notes: pitches.map((pitch, place) => eighth(place, pitch)),
    labels: [],
    opensRepeat: false,
    timesPlayed: 0,
    ending: null,
    endsSection: false,
    part: null,
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
