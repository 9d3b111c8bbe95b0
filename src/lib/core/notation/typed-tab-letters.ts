import { add, multiply, rational, type Rational } from '../rhythm/rational';
import type { NoteValue } from './note-values';

/** The first letters of the note values from the whole note down to the 32nd (common practice). */
const LETTERS = [...'whqest'];
const SHORTEST = LETTERS.length - 1;

/**
 * A line of rhythm letters (`q e e`, `q. e`, `e3 e3 e3` for a triplet) with the lengths that they stand for, in whole notes;
 * `null` for any other line.
 */
export function lettersIn(text: string): { length: Rational; at: number }[] | null {
  const found: { length: Rational; at: number }[] = [];
  for (const match of text.replaceAll('|', ' ').matchAll(/\S+/g)) {
    const length = lengthOf(match[0]);
    if (!length) return null;
    found.push({ length, at: match.index });
  }
  return found.length > 0 ? found : null;
}

function lengthOf(word: string): Rational | null {
  const match = /^([whqest])(\.{0,2})(3?)$/i.exec(word);
  if (!match) return null;
  const plain = rational(1, 2 ** LETTERS.indexOf((match[1] ?? '').toLowerCase()));
  const dots = (match[2] ?? '').length;
  const dotted = multiply(plain, rational(2 ** (dots + 1) - 1, 2 ** dots));
  return match[3] === '3' ? multiply(dotted, [2, 3]) : dotted;
}

/** The letter of a note value; `null` for one shorter than a 32nd. */
export function letterOf({ power, dots, isTriplet }: NoteValue): string | null {
  const letter = LETTERS[power];
  return letter && power <= SHORTEST ? letter + '.'.repeat(dots) + (isTriplet ? '3' : '') : null;
}

/** Where each length begins when one follows the other, and where the last one ends. */
export function onsetsOf(lengths: readonly Rational[]): { onsets: Rational[]; end: Rational } {
  let end: Rational = [0, 1];
  const onsets = lengths.map((length) => {
    const onset = end;
    end = add(end, length);
    return onset;
  });
  return { onsets, end };
}
