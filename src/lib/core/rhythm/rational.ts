/**
 * An exact fraction `[numerator, denominator]`, in lowest terms, denominator positive. Both are safe integers:
 * the longest sum the program makes (30 minutes at 300 beats per minute, in samples at 192 kHz) stays below 2^53.
 */
export type Rational = readonly [numerator: number, denominator: number];

export const ZERO: Rational = [0, 1];

/** The fraction `numerator / denominator` in lowest terms. Throws a RangeError unless both are safe integers and the denominator is not 0. */
export function rational(numerator: number, denominator = 1): Rational {
  if (!Number.isSafeInteger(numerator) || !Number.isSafeInteger(denominator) || denominator === 0) {
    throw new RangeError(
      `A fraction needs whole numbers and a denominator other than 0: saw ${numerator}/${denominator}`,
    );
  }
  const sign = denominator < 0 ? -1 : 1;
  const divisor = greatestCommonDivisor(Math.abs(numerator), Math.abs(denominator));
  // `+ 0` turns -0 into 0, so that equal fractions compare equal everywhere
  return [(sign * numerator) / divisor + 0, Math.abs(denominator) / divisor];
}

export function add(a: Rational, b: Rational): Rational {
  const common = greatestCommonDivisor(a[1], b[1]);
  return rational(a[0] * (b[1] / common) + b[0] * (a[1] / common), a[1] * (b[1] / common));
}

export function subtract(a: Rational, b: Rational): Rational {
  return add(a, [-b[0], b[1]]);
}

/** The product, cross-reduced first so that intermediate numbers stay small. */
export function multiply(a: Rational, b: Rational): Rational {
  const first = rational(a[0], b[1]);
  const second = rational(b[0], a[1]);
  return [first[0] * second[0], first[1] * second[1]];
}

/** Throws a RangeError when `b` is 0. */
export function divide(a: Rational, b: Rational): Rational {
  return multiply(a, rational(b[1], b[0]));
}

/** Negative when `a < b`, 0 when equal, positive when `a > b`. */
export function compare(a: Rational, b: Rational): number {
  return a[0] * b[1] - b[0] * a[1];
}

export function equal(a: Rational, b: Rational): boolean {
  return a[0] === b[0] && a[1] === b[1];
}

export function toNumber(a: Rational): number {
  return a[0] / a[1];
}

/** The nearest whole number, halves upwards. */
export function roundToInteger(a: Rational): number {
  return Math.floor((2 * a[0] + a[1]) / (2 * a[1]));
}

function greatestCommonDivisor(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a === 0 ? 1 : a;
}
