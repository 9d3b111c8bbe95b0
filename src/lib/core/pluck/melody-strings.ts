import { compare, equal } from '../rhythm/rational';
import type { MelodyNote } from '../tune/melody';
import { LONG_STRINGS, lowestFret } from '../tune/neck';
import { soundingPitch, type Setup, type StringNumber } from '../tune/tuning';

/** A note of a melody without fingering, on the string that sounds it. */
export interface StrungNote {
  note: MelodyNote;
  string: StringNumber;
}

/**
 * A string for each note that is struck: the highest-tuned long string that is free at its place and, open, not above
 * it; below all of them the lowest-tuned. Tied notes ring on and are left out, and so is what finds no string free.
 */
export function melodyOnStrings(melody: readonly MelodyNote[], setup: Setup): StrungNote[] {
  const strung: StrungNote[] = [];
  for (const note of melody) {
    if (note.tied) continue;
    const taken = strung.filter((other) => equal(other.note.onset, note.onset)).map(({ string }) => string);
    const string = stringFor(
      note.pitch,
      LONG_STRINGS.filter((one) => !taken.includes(one)),
      setup,
    );
    if (string) strung.push({ note, string });
  }
  return strung.sort((a, b) => compare(a.note.onset, b.note.onset));
}

function stringFor(pitch: number, free: readonly StringNumber[], setup: Setup): StringNumber | undefined {
  const open = (string: StringNumber) => soundingPitch(setup, string, 0);
  return lowestFret(pitch, free, setup)?.string ?? free.toSorted((a, b) => open(b) - open(a)).at(-1);
}
