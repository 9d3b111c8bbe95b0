import { compare, multiply, rational, subtract, ZERO, type Rational } from '../rhythm/rational';

/** How a length is written: `1 / 2^power` of a whole note, its dots, and whether three go in the time of two. */
export interface NoteValue {
  /** 0 whole, 1 half, 2 quarter, 3 eighth, up to 6. */
  power: number;
  dots: 0 | 1 | 2;
  isTriplet: boolean;
}

const SHORTEST_POWER = 6;

/** The one note value of a length in whole notes; `null` when it takes several, tied, or when no value fits. */
export function noteValue(length: Rational): NoteValue | null {
  const isTriplet = length[1] % 3 === 0;
  const [count, unit] = isTriplet ? multiply(length, [3, 2]) : length;
  const unitPower = Math.log2(unit);
  const dots = ([1, 3, 7] as const).findIndex((dotted) => dotted === count);
  if (dots < 0 || !Number.isInteger(unitPower)) return null;
  const power = unitPower - dots;
  return power >= 0 && power <= SHORTEST_POWER ? { power, dots: dots as 0 | 1 | 2, isTriplet } : null;
}

/** Flags or beams: none from a quarter note up. */
export function flagsOf({ power }: NoteValue): number {
  return Math.max(0, power - 2);
}

export interface Piece {
  onset: Rational;
  value: NoteValue;
}

/**
 * A length as the values that it is written in, tied to each other: one where one will do, otherwise parted at the
 * beats, and what no values add up to is written too short. `beat` is the length of a beat in whole notes.
 */
export function pieces(onset: Rational, end: Rational, beat: Rational): Piece[] {
  if (compare(onset, end) >= 0) return [];
  const length = subtract(end, onset);
  const value = noteValue(length);
  const nextBeat = multiply(beat, rational(Math.floor((onset[0] * beat[1]) / (onset[1] * beat[0])) + 1));
  const crosses = compare(nextBeat, end) < 0;
  if (value && (!crosses || readsAcross(onset, value))) return [{ onset, value }];
  if (crosses) return [...pieces(onset, nextBeat, beat), ...pieces(nextBeat, end, beat)];
  const longest = plainValueWithin(length);
  if (!longest) return [];
  const rest = multiply(rational(1, 2 ** longest.power), longest.isTriplet ? [2, 3] : [1, 1]);
  const after = subtract(length, rest);
  const first = { onset, value: longest };
  return compare(after, ZERO) > 0 && noteValue(after)
    ? [first, ...pieces(subtract(end, after), end, beat)]
    : [first];
}

/** A value may hide a beat when it begins on a half of itself, as the quarter note of an off-beat does (common practice). */
function readsAcross([, place]: Rational, { power, dots }: NoteValue): boolean {
  return place <= 2 ** (dots > 0 ? power : power + 1);
}

function plainValueWithin(length: Rational): NoteValue | null {
  const isTriplet = length[1] % 3 === 0;
  for (let power = 0; power <= SHORTEST_POWER; power += 1) {
    const plain = multiply(rational(1, 2 ** power), isTriplet ? [2, 3] : [1, 1]);
    if (compare(plain, length) <= 0) return { power, dots: 0, isTriplet };
  }
  return null;
}
