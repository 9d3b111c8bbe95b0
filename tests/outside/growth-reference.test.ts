import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { describe, expect, it } from 'vitest';
import { fitGrowth, growthAt, type Growth, type GrowthPoint } from '$lib/core/progress/growth';

/**
 * Recovery of known parameters, against a general-purpose fitting library on the same data: ml-levenberg-marquardt 5.1.0 (npm; the
 * algorithm of Levenberg 1944 and Marquardt 1963 [from memory]). The curve is Heathcote, Brown & Mewhort's form (2000, Psychon
 * Bull Rev 7:185-207 [looked up: abstract]), written out here and not taken from the code under test.
 */
const curve =
  ([plateau = 0, start = 0, rate = 0]: number[]) =>
  (day: number) =>
    plateau - (plateau - start) * Math.exp(-rate * day);

const TRUTHS: Growth[] = [
  { plateau: 110, start: 60, rate: 0.15 },
  { plateau: 96, start: 40, rate: 0.3 },
  { plateau: 120, start: 80, rate: 0.08 },
  { plateau: 72, start: 50, rate: 0.6 },
];

/** Sums of three uniforms, by a linear congruential generator (Numerical Recipes' constants [from memory]). */
function noise(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  return () => uniform() + uniform() + uniform() - 1.5;
}

/** Points of a curve with noise, all equally sure: the library's weights leave its own steps and its own error at odds. */
function points(truth: Growth, days: number, width: number, seed: number): GrowthPoint[] {
  const draw = noise(seed);
  const at = curve([truth.plateau, truth.start, truth.rate]);
  return Array.from({ length: days }, (_, day) => {
    const tempo = at(day) + width * draw();
    return { tempo, low: tempo - 4, high: tempo + 4 };
  });
}

/** The library's fit, begun well away from the truth. */
function libraryFit(data: readonly GrowthPoint[], truth: Growth): Growth {
  const x = data.map((_, day) => day);
  const { parameterValues } = levenbergMarquardt({ x, y: data.map(({ tempo }) => tempo) }, curve, {
    initialValues: [truth.plateau * 1.05, truth.start * 0.95, truth.rate * 1.2],
    ...{ minValues: [20, 20, 0.001], maxValues: [400, 400, 5] },
    ...{
      maxIterations: 300,
      errorTolerance: 1e-9,
      gradientDifference: [1e-3, 1e-3, 1e-5],
      centralDifference: true,
    },
  });
  const [plateau = NaN, start = NaN, rate = NaN] = parameterValues;
  return { plateau, start, rate };
}

const errorOf = ({ plateau, start, rate }: Growth, data: readonly GrowthPoint[]): number =>
  data.reduce((sum, { tempo }, day) => sum + (tempo - curve([plateau, start, rate])(day)) ** 2, 0);

describe.each(TRUTHS)('growth from $start to $plateau at $rate a day', (truth) => {
  it('is recovered from clean data, by the library and by us', () => {
    const data = points(truth, 30, 0, 1);
    const theirs = libraryFit(data, truth);
    const ours = fitGrowth(data)!.growth;
    for (const name of ['plateau', 'start', 'rate'] as const) {
      expect(Math.abs(theirs[name] / truth[name] - 1)).toBeLessThan(1e-3);
    }
    for (const name of ['plateau', 'start', 'rate'] as const) {
      expect(Math.abs(ours[name] / truth[name] - 1)).toBeLessThan(1e-3);
    }
  });

  it('is as good a fit to noisy data as the library finds, and near it', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const data = points(truth, 30, 3, seed);
      const theirs = libraryFit(data, truth);
      const ours = fitGrowth(data)!.growth;
      expect(errorOf(ours, data)).toBeLessThan(1.0001 * errorOf(theirs, data));
      for (const day of [0, 5, 15, 29]) {
        expect(
          Math.abs(growthAt(ours, day) - curve([theirs.plateau, theirs.start, theirs.rate])(day)),
        ).toBeLessThan(0.5);
      }
    }
  });
});

it('the measure of a fit can fail: a curve with another plateau is worse by far', () => {
  const truth = TRUTHS[0]!;
  const data = points(truth, 30, 3, 1);
  const theirs = libraryFit(data, truth);
  expect(errorOf({ ...theirs, plateau: theirs.plateau + 15 }, data)).toBeGreaterThan(
    2 * errorOf(theirs, data),
  );
});
