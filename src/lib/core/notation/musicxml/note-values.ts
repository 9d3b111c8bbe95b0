import { compare, divide, multiply, subtract, type Rational } from '../../rhythm/rational';
import { tupletRatio, type TupletRatio } from '../tuplet-ratio';

/** One written note value: `length` is what it takes, `tuplet` how many in the time of how many. */
export interface NoteValue {
  length: Rational;
  /** `null` where the format has no name for it. */
  type: string | null;
  dots: number;
  tuplet: TupletRatio | null;
}

/** The names of the format from the breve down, each half of the one before. */
const TYPES = ['breve', 'whole', 'half', 'quarter', 'eighth', '16th', '32nd', '64th', '128th', '256th'];

/** The written values, longest first, that add up to a length: notes of them are tied. */
export function noteValues(length: Rational): NoteValue[] {
  const tuplet = tupletRatio(length);
  const scale: Rational = tuplet ? [tuplet.actual, tuplet.normal] : [1, 1];
  const values: NoteValue[] = [];
  let left = multiply(length, scale);
  while (left[0] > 0) {
    const plain = longestWithin(left);
    const written = plain?.length ?? left;
    const named = { type: plain?.type ?? null, dots: plain?.dots ?? 0 };
    values.push({ length: divide(written, scale), ...named, tuplet });
    left = subtract(left, written);
  }
  return values;
}

function longestWithin(length: Rational): { length: Rational; type: string; dots: number } | null {
  for (const [index, type] of TYPES.entries()) {
    const base: Rational = index === 0 ? [2, 1] : [1, 2 ** (index - 1)];
    for (const dots of [1, 0]) {
      const value = multiply(base, dots === 1 ? [3, 2] : [1, 1]);
      if (compare(value, length) <= 0) return { length: value, type, dots };
    }
  }
  return null;
}
