import type { Rational } from './rational';

/**
 * What touches a string, and how: the nail of the striking hand, its thumb, a finger of the fretting hand that comes
 * down (hammer-on) or plucks as it leaves (pull-off), a finger that stays down and moves (slide), a hand laid on.
 */
export type Touch = 'nail' | 'thumb' | 'tap' | 'pull' | 'stay' | 'damp';

/** One sound of the string within a segment. Plain data: it is posted to the worklet with its segment. */
export interface PluckCue {
  /** In beats from the start of the segment, from 0 and before its end. */
  at: Rational;
  /** 1 to 5, as banjo players number them: the fifth is the short one. */
  string: 1 | 2 | 3 | 4 | 5;
  /** MIDI note number, 69 = A4: what the string comes to. */
  pitch: number;
  /** `nail` when left out. The nail and the thumb stop what the string was sounding; the others play on with it. */
  touch?: Touch;
  /** The pitch that it starts from; when left out, where it is. */
  fromPitch?: number;
  /** In which it gets from there to `pitch`; 0 when left out. */
  glideSec?: number;
  /** From 0 to 1, how hard; 0.85, a melody note, when left out. */
  strength?: number;
}
