import { compare, type Rational } from '../rhythm/rational';
import type { StringNumber } from './tuning';

/**
 * How a note is sounded, in the trade's words. A `tie` is not sounded: the string's note before it rings on. A rest
 * is a place without a strike.
 */
export const TECHNIQUES = [
  'strike',
  'brush',
  'drone',
  'drop-thumb',
  'hammer-on',
  'pull-off',
  'slide',
  'tie',
] as const;
export type Technique = (typeof TECHNIQUES)[number];

/** Left-hand fingers as players number them, from the index finger (common practice). */
export const FINGERS = [1, 2, 3, 4] as const;
export type Finger = (typeof FINGERS)[number];

/** A ghost is hinted at more than heard; an accent stands out. */
export const WEIGHTS = ['ghost', 'accent'] as const;
export type Weight = (typeof WEIGHTS)[number];

/** One note of the tab. A brush is one strike on its lowest-numbered string with `technique: 'brush'`. */
export interface Strike {
  /** From the start of the measure, in whole notes. */
  onset: Rational;
  /** In whole notes. */
  duration: Rational;
  string: StringNumber;
  /** Counted from the capo; on the short string from its own nut or spike. 0 to 22. */
  fret: number;
  technique: Technique;
  finger?: Finger;
  weight?: Weight;
}

/** The order in which strikes are kept: by onset, then by string. */
export function compareStrikes(a: Strike, b: Strike): number {
  return compare(a.onset, b.onset) || a.string - b.string;
}
