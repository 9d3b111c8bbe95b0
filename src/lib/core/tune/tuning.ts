/**
 * A tuning: the open pitch of each string without capo, as MIDI note numbers (A4 = 69), from the fifth (short)
 * string to the first, as tunings are written: gDGBD.
 */
export type Tuning = readonly [fifth: number, fourth: number, third: number, second: number, first: number];

export type StringNumber = 1 | 2 | 3 | 4 | 5;

export interface NamedTuning {
  /** Written from the fifth string, the short string in lower case. */
  name: string;
  /** What players call it. */
  called: string;
  tuning: Tuning;
}

/** The tunings that players of this style use most (common practice; SCIENCE.md section 4). */
export const COMMON_TUNINGS: readonly NamedTuning[] = [
  { name: 'gDGBD', called: 'G', tuning: [67, 50, 55, 59, 62] },
  { name: 'gCGCD', called: 'double C', tuning: [67, 48, 55, 60, 62] },
  { name: 'gDGCD', called: 'sawmill', tuning: [67, 50, 55, 60, 62] },
  { name: 'aDADE', called: 'double D', tuning: [69, 50, 57, 62, 64] },
  { name: 'gCGBD', called: 'drop C', tuning: [67, 48, 55, 59, 62] },
  { name: 'aEAC#E', called: 'A', tuning: [69, 52, 57, 61, 64] },
  { name: 'aEADE', called: 'A modal', tuning: [69, 52, 57, 62, 64] },
  { name: 'f#DF#AD', called: 'D', tuning: [66, 50, 54, 57, 62] },
];

const PITCH_NAMES = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const;

/** The name of a MIDI pitch without its octave, in sharps. */
export function pitchName(midi: number): string {
  return PITCH_NAMES[((midi % 12) + 12) % 12] ?? '';
}

/** A tuning as players write it: `gDGBD`. */
export function tuningName(tuning: Tuning): string {
  const [fifth, ...long] = tuning;
  return pitchName(fifth).toLowerCase() + long.map(pitchName).join('');
}

export function sameTuning(a: Tuning, b: Tuning): boolean {
  return a.every((pitch, index) => pitch === b[index]);
}

/**
 * Frequency in hertz of a MIDI pitch: equal temperament on A4 = 440 Hz (ISO 16:1975), `f = 440 * 2^((m - 69) / 12)`.
 */
export function frequencyHz(midi: number): number {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** How the neck is set up for a tune: a capo on strings 1-4, and the short string raised by its own spike, in frets. */
export interface Setup {
  tuning: Tuning;
  capo: number;
  spike: number;
}

/** The MIDI pitch that sounds at a fret counted from the capo (or, on the short string, from its own nut or spike). */
export function soundingPitch(setup: Setup, string: StringNumber, fret: number): number {
  const open = setup.tuning[5 - string] ?? 0;
  return open + fret + (string === 5 ? setup.spike : setup.capo);
}
