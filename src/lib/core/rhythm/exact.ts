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

export function multiplyExact(a: Exact, b: Exact): Exact {
  return reduced(a[0] * b[0], a[1] * b[1]);
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
