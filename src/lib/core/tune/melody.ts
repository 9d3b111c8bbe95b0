import { compare, type Rational } from '../rhythm/rational';

/** One note of a melody that has no fingering yet. */
export interface MelodyNote {
  /** From the start of the measure, in whole notes. */
  onset: Rational;
  /** In whole notes. */
  duration: Rational;
  /** As it sounds, MIDI note number. */
  pitch: number;
  /** Held over from the note of this pitch before it: not sounded again. */
  tied?: true;
}

/** The order in which melody notes are kept: by onset, then from the highest pitch down. */
export function compareNotes(a: MelodyNote, b: MelodyNote): number {
  return compare(a.onset, b.onset) || b.pitch - a.pitch;
}
