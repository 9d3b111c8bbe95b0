import type { Rational } from '../rhythm/rational';

/** So many notes in the time of so many. */
export interface TupletRatio {
  actual: number;
  normal: number;
}

/**
 * The tuplet in which a length can be written, `null` when it takes none: as many notes as the odd part of its
 * denominator says, in the time of the power of two below (common practice: 3 in 2, 5 in 4, 7 in 4).
 */
export function tupletRatio([, denominator]: Rational): TupletRatio | null {
  let actual = denominator;
  while (actual % 2 === 0) actual /= 2;
  return actual === 1 ? null : { actual, normal: 2 ** Math.floor(Math.log2(actual)) };
}
