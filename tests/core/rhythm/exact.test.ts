import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addExact,
  divideExact,
  exact,
  exactToNumber,
  multiplyExact,
  roundExact,
  squareRootAround,
} from '$lib/core/rhythm/exact';
import { rational, roundToInteger } from '$lib/core/rhythm/rational';

const fraction = fc
  .tuple(fc.integer({ min: -1_000_000, max: 1_000_000 }), fc.integer({ min: 1, max: 10_000 }))
  .map(([numerator, denominator]) => rational(numerator, denominator));

describe('exact fractions of any size', () => {
  it('round halves upwards, as the small fractions do', () => {
    expect([-3, -1, 1, 3].map((halves) => roundExact([BigInt(halves), 2n]))).toEqual([-1, 0, 1, 2]);
    fc.assert(fc.property(fraction, (value) => roundExact(exact(value)) === roundToInteger(value)));
  });

  it('come back to where they were when what was added is taken away', () => {
    fc.assert(
      fc.property(fc.array(fraction), (values) => {
        const total = values.map(exact).reduce(addExact, exact(0));
        const back = values.map((value) => multiplyExact(exact(value), exact(-1))).reduce(addExact, total);
        expect(back).toEqual([0n, 1n]);
      }),
    );
  });

  it('become the nearest floating-point number even when numerator and denominator are past 2^53', () => {
    const third = [10n ** 400n, 3n * 10n ** 400n] as const;
    expect(exactToNumber(third)).toBeCloseTo(1 / 3, 15);
    expect(exactToNumber([-7n, 2n])).toBe(-3.5);
  });

  it('divided and multiplied by the same are what they were, and none is divided by 0', () => {
    fc.assert(
      fc.property(fraction, fraction, (a, b) => {
        if (b[0] === 0) expect(() => divideExact(exact(a), exact(b))).toThrow(RangeError);
        else expect(multiplyExact(divideExact(exact(a), exact(b)), exact(b))).toEqual(exact(a));
      }),
    );
  });

  it('have a root between two fractions as close as asked, and the root itself where it is one', () => {
    fc.assert(
      fc.property(fraction, fc.integer({ min: 1, max: 200 }), ([n, d], bits) => {
        const a = exact(rational(Math.abs(n), d));
        const [low, high] = squareRootAround(a, bits);
        const square = ([top, bottom]: readonly [bigint, bigint]) => [top * top, bottom * bottom] as const;
        const atMost = (one: readonly bigint[], two: readonly bigint[]) =>
          one[0]! * two[1]! <= two[0]! * one[1]!;
        expect(atMost(square(low), a) && atMost(a, square(high))).toBe(true);
        const apart = high[0] * low[1] - low[0] * high[1];
        expect(apart << BigInt(bits) <= low[1] * high[1]).toBe(true);
        expect(squareRootAround(multiplyExact(a, a), bits)).toEqual([a, a]);
      }),
    );
    expect(() => squareRootAround([-1n, 4n], 8)).toThrow(RangeError);
  });

  it('refuse a number that is not whole', () => {
    expect(() => exact(0.5)).toThrow(RangeError);
  });
});
