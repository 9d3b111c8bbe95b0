import { equal } from '../rhythm/rational';
import type { MelodyNote } from '../tune/melody';
import { compareStrikes, type Strike } from '../tune/strike';
import { soundingPitch, type Setup, type StringNumber } from '../tune/tuning';
import { FRET_LAST, type MeasureWriting } from './measure-edit';

export interface MelodyOnNeck {
  writing: MeasureWriting;
  /** The notes that no long string reaches, or that find no string free at their place. */
  outOfReach: MelodyNote[];
}

const LONG_STRINGS: readonly StringNumber[] = [1, 2, 3, 4];

/**
 * The melody as strikes: each note at its lowest fret on the four long strings that are free at its place, the thinner
 * string of two. A proposal for the learner to correct. Lengths are the melody's own.
 */
export function melodyOnNeck(writing: MeasureWriting, setup: Setup): MelodyOnNeck {
  const strikes: Strike[] = [];
  const outOfReach: MelodyNote[] = [];
  for (const note of writing.melody ?? []) {
    const free = LONG_STRINGS.filter(
      (string) => !strikes.some((strike) => strike.string === string && equal(strike.onset, note.onset)),
    );
    const position = nearest(free, note.pitch, setup);
    if (!position) {
      outOfReach.push(note);
      continue;
    }
    const { onset, duration, tied } = note;
    strikes.push({ onset, duration, ...position, technique: tied ? 'tie' : 'strike' });
  }
  strikes.sort(compareStrikes);
  return { writing: { ...writing, strikes: strikes.length > 0 ? strikes : null }, outOfReach };
}

function nearest(
  strings: readonly StringNumber[],
  pitch: number,
  setup: Setup,
): { string: StringNumber; fret: number } | null {
  const reach = strings
    .map((string) => ({ string, fret: pitch - soundingPitch(setup, string, 0) }))
    .filter(({ fret }) => fret >= 0 && fret <= FRET_LAST)
    .sort((a, b) => a.fret - b.fret);
  return reach[0] ?? null;
}
