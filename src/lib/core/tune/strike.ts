import { compare, type Rational } from '../rhythm/rational';
import type { StringNumber } from './tuning';

/** How a note is sounded, in the trade's words. */
export const TECHNIQUES = [
  'strike',
  'brush',
  'drone',
  'drop-thumb',
  'hammer-on',
  'pull-off',
  'slide',
] as const;
export type Technique = (typeof TECHNIQUES)[number];

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
}

/** The order in which strikes are kept: by onset, then by string. */
export function compareStrikes(a: Strike, b: Strike): number {
  return compare(a.onset, b.onset) || a.string - b.string;
}
