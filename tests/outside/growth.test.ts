import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitGrowth, growthAt } from '$lib/core/progress/growth';

/**
 * SCIENCE.md check 8, the form of Heathcote, Brown & Mewhort 2000, "The power law repealed", Psychon Bull Rev 7:185-207
 * [looked up: abstract]: on synthetic exponential tempo data the fitted plateau is recovered, and more practice never
 * lowers the fitted tempo. The data below are computed here from the published form, not by the code under test.
 */
function heathcote(plateau: number, start: number, rate: number, days: number): number[] {
  return Array.from({ length: days }, (_, n) => plateau - (plateau - start) * Math.exp(-rate * n));
}

const point = (tempo: number) => ({ tempo, low: tempo - 4, high: tempo + 4 });

/** A small linear congruential generator (Numerical Recipes' constants [from memory]); the noise must repeat. */
function noise(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  return () => uniform() + uniform() + uniform() - 1.5;
}

describe('growth over practice days (SCIENCE.md check 8)', () => {
  it('recovers the plateau of clean exponential data', () => {
    for (const [plateau, start, rate] of [
      [110, 60, 0.15],
      [96, 40, 0.3],
      [120, 80, 0.08],
    ] as const) {
      const fit = fitGrowth(heathcote(plateau, start, rate, 30).map(point));
      expect(Math.abs((fit?.growth.plateau ?? 0) - plateau)).toBeLessThan(0.02 * plateau);
      expect(fit?.explained).toBeGreaterThan(0.99);
    }
  });

  it('recovers it within a few beats under noise of two beats', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const draw = noise(seed);
      const tempos = heathcote(104, 58, 0.18, 30).map((tempo) => tempo + 4 * draw());
      expect(Math.abs((fitGrowth(tempos.map(point))?.growth.plateau ?? 0) - 104)).toBeLessThan(5);
    }
  });

  it('does not find the plateau of data that have none: the check can fail', () => {
    const line = Array.from({ length: 30 }, (_, n) => 40 + 2 * n);
    expect(fitGrowth(line.map(point))?.growth.plateau).toBeGreaterThan(150);
  });

  it('never lowers the fitted tempo with more practice, whatever the data', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 20, max: 300, noNaN: true }), { minLength: 5, maxLength: 60 }),
        (tempos) => {
          const fit = fitGrowth(tempos.map(point));
          for (const growth of [fit!.growth, ...fit!.plausible]) {
            const tempos = Array.from({ length: 80 }, (_, day) => growthAt(growth, day));
            const lowered = tempos.filter((tempo, day) => tempo < (tempos[day - 1] ?? tempo) - 1e-9);
            expect(lowered).toEqual([]);
          }
        },
      ),
      { numRuns: 100 },
    );
  });
});
