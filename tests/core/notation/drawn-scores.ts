import {
  NO_SIGNS,
  type Score,
  type ScoreMeasure,
  type ScoreNote,
  type ScoreVoice,
} from '../../../src/lib/core/notation/score';
import { rational } from '../../../src/lib/core/rhythm/rational';

/** A measure of 2/4 with one note of the pitch. */
export function madeMeasure(pitch: number, change: Partial<ScoreMeasure> = {}): ScoreMeasure {
  const length = change.length ?? [1, 2];
  return {
    ...{ line: 1, column: 1, meter: null, length, labels: [], ...NO_SIGNS },
    notes: [madeNote([0, 1], length, pitch)],
    ...change,
  };
}

/** A 2/4 measure of as many eighths as pitches. */
export function bar(pitches: readonly number[], change: Partial<ScoreMeasure> = {}): ScoreMeasure {
  return madeMeasure(0, {
    ...{ meter: { count: 2, unit: 4 }, length: rational(pitches.length, 8) },
    notes: pitches.map((pitch, place) => madeNote(rational(place, 8), [1, 8], pitch)),
    ...change,
  });
}

export function madeNote(
  onset: ScoreNote['onset'],
  duration: ScoreNote['duration'],
  pitch: number,
  change: Partial<ScoreNote> = {},
): ScoreNote {
  return { onset, duration, pitch, ...change };
}

/**
 * Measures drawn as ABC draws bar lines, each letter one measure: `|:ab|1c:|2d||`. `(P)` before a measure begins
 * part P; `|::a::|` is played three times.
 */
export function drawnVoice(drawing: string): ScoreVoice {
  const measures: ScoreMeasure[] = [];
  let [opensRepeat, part] = [false, null as string | null];
  let ending: number[] | null = null;
  for (const token of drawing.match(/\([A-Z]\)|:*\|+:*|[\d,]+|[a-z]/g) ?? []) {
    const last = measures.at(-1);
    if (token.startsWith('(')) part = token.charAt(1);
    else if (/[a-z]/.test(token)) {
      measures.push(madeMeasure(token.charCodeAt(0), { opensRepeat, ending, part }));
      [opensRepeat, part] = [false, null];
    } else if (/\d/.test(token)) ending = token.split(',').map(Number);
    else {
      const [closing = '', opening = ''] = [/^:*/.exec(token)?.[0], /:*$/.exec(token)?.[0]];
      if (opening) opensRepeat = true;
      const endsSection = token.includes('||');
      const timesPlayed = closing ? closing.length + 1 : 0;
      if (last) measures.splice(-1, 1, { ...last, timesPlayed, endsSection });
      if (closing || endsSection) ending = null;
    }
  }
  return { name: 'tune', measures };
}

/** The letters of the measures of a drawing, by their indices. */
export function letters({ measures }: ScoreVoice, indices: readonly number[]): string {
  return indices.map((index) => String.fromCharCode(measures[index]?.notes[0]?.pitch ?? 63)).join('');
}

export function madeScore(measures: readonly ScoreMeasure[], change: Partial<Score> = {}): Score {
  return {
    ...{ number: null, title: 'Old Marl Pit', key: 'C', meter: { count: 2, unit: 4 }, tempo: 112 },
    ...{ tuning: null, capo: null, voices: [{ name: 'tune', measures }], order: null, warnings: [] },
    ...change,
  };
}
