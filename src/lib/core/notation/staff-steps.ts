/** Where a pitch stands on a staff of five lines. */
export interface StaffPlace {
  /** Lines and spaces up from the lowest line, which is 0: E above middle C in the treble clef. */
  step: number;
  /** The semitones that a sign adds to the natural note. */
  sign: 0 | 1;
}

/** Steps up from C and sharps of the twelve pitches, spelled in sharps as `pitchName` spells them. */
const SPELLING: readonly [step: number, sign: 0 | 1][] = [
  [0, 0],
  [0, 1],
  [1, 0],
  [1, 1],
  [2, 0],
  [3, 0],
  [3, 1],
  [4, 0],
  [4, 1],
  [5, 0],
  [5, 1],
  [6, 0],
];

/** E4, MIDI 64, in steps from the C of octave -1: the lowest line of the treble clef (common practice). */
const LOWEST_LINE = 5 * 7 + 2;

/** The place of a MIDI pitch in the treble clef. */
export function staffPlace(pitch: number): StaffPlace {
  const [step, sign] = SPELLING[((pitch % 12) + 12) % 12] ?? [0, 0];
  return { step: Math.floor(pitch / 12) * 7 + step - LOWEST_LINE, sign };
}
