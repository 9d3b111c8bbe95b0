import type { Rational } from './rational';

/**
 * An exact fraction of any size, in lowest terms, denominator positive. A climb adds times at many tempos, and the
 * common denominator of a dozen of them no longer fits the safe integers of a `Rational`.
 */
export type Exact = readonly [numerator: bigint, denominator: bigint];

export const EXACT_ZERO: Exact = [0n, 1n];

/** A fraction or a whole number, as it is. Throws a RangeError for a number that is not whole. */
export function exact(value: Rational | number): Exact {
  return typeof value === 'number' ? [BigInt(value), 1n] : [BigInt(value[0]), BigInt(value[1])];
}

export function addExact(a: Exact, b: Exact): Exact {
  return reduced(a[0] * b[1] + b[0] * a[1], a[1] * b[1]);
}

export function subtractExact(a: Exact, b: Exact): Exact {
  return addExact(a, [-b[0], b[1]]);
}

export function multiplyExact(a: Exact, b: Exact): Exact {
  return reduced(a[0] * b[0], a[1] * b[1]);
}

/** Throws a RangeError when `b` is 0. */
export function divideExact(a: Exact, b: Exact): Exact {
  if (b[0] === 0n) throw new RangeError('A fraction cannot be divided by 0');
  const sign = b[0] < 0n ? -1n : 1n;
  return multiplyExact(a, [sign * b[1], sign * b[0]]);
}

/**
 * Two fractions between which the square root of `a` lies, at most 2^-bits apart, and the same when the root is itself
 * a fraction. Throws a RangeError for a negative `a`.
 */
export function squareRootAround(a: Exact, bits: number): readonly [Exact, Exact] {
  if (a[0] < 0n) throw new RangeError('A negative number has no square root');
  // the root of n/d is that of nd, divided by d
  const scaled = (a[0] * a[1]) << BigInt(2 * bits);
  const root = wholeSquareRoot(scaled);
  const below = reduced(root, a[1] << BigInt(bits));
  return root * root === scaled ? [below, below] : [below, reduced(root + 1n, a[1] << BigInt(bits))];
}

/** The nearest whole number, halves upwards. */
export function roundExact(a: Exact): number {
  return Number(floorDivide(2n * a[0] + a[1], 2n * a[1]));
}

/** The value as a floating-point number, within about one part in 2^52. */
export function exactToNumber(a: Exact): number {
  const whole = floorDivide(a[0], a[1]);
  const rest = a[0] - whole * a[1];
  return Number(whole) + Number((rest << 64n) / a[1]) / 2 ** 64;
}

/** The greatest whole number whose square is at most `value`, by Newton's method from above. */
function wholeSquareRoot(value: bigint): bigint {
  if (value < 2n) return value;
  let root = 1n << BigInt(Math.ceil(value.toString(16).length * 2));
  for (;;) {
    const next = (root + value / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}

function reduced(numerator: bigint, denominator: bigint): Exact {
  const divisor = greatestCommonDivisor(numerator < 0n ? -numerator : numerator, denominator);
  return [numerator / divisor, denominator / divisor];
}

function floorDivide(numerator: bigint, denominator: bigint): bigint {
  const quotient = numerator / denominator;
  return numerator < 0n && quotient * denominator !== numerator ? quotient - 1n : quotient;
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  while (b !== 0n) [a, b] = [b, a % b];
  return a;
}
