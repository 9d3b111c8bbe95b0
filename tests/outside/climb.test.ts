import { describe, expect, it } from 'vitest';
import { ASCENT_STEP, CLEAN_RUN, DOWN_STEP, rampSteps, UP_STEP } from '../../src/lib/core/practice/climb';

describe('check 10: a ramp', () => {
  // SCIENCE.md section 3 [computed]; steps of 3-5 % are about the just noticeable difference (Drake & Botte 1993,
  // Percept & Psychophys 54, 277-286) [looked up: abstract]
  it.each([
    [3, 24],
    [4, 18],
    [5, 15],
    [10, 8],
  ])('of %i % goes from 60 to 120 in %i steps, rising, and ends on 120', (percent, steps) => {
    const tempos = rampSteps(60, 120, percent);
    expect(tempos).toHaveLength(steps);
    expect(tempos.at(-1)).toBe(120);
    for (const [index, tempo] of tempos.entries()) {
      expect(tempo).toBeGreaterThan(tempos[index - 1] ?? 60);
      expect(tempo).toBeLessThanOrEqual(120);
    }
    const down = rampSteps(120, 60, percent);
    expect(down).toHaveLength(steps);
    expect(Math.min(...down)).toBe(60);
  });

  it('of no length has no steps, and one that cannot be is refused', () => {
    expect(rampSteps(80, 80, 5)).toEqual([]);
    expect(() => rampSteps(60, 120, 0)).toThrow(RangeError);
    expect(() => rampSteps(NaN, 120, 5)).toThrow(RangeError);
  });
});

describe('the weighted up-down rule', () => {
  // Kaernbach 1991, Perception & Psychophysics 49:227: S_up * p = S_down * (1 - p) [from memory]; with steps up after k
  // clean passes the chance of a step up is p^k, as in Levitt 1971, JASA 49:467 [from memory]
  it('rests where a pass is clean 17 times in 20, by bisecting the published balance', () => {
    const balance = (p: number) => UP_STEP * p ** CLEAN_RUN - DOWN_STEP * (1 - p ** CLEAN_RUN);
    let [low, high] = [0, 1];
    for (let turn = 0; turn < 60; turn++) {
      const middle = (low + high) / 2;
      if (balance(middle) > 0) high = middle;
      else low = middle;
    }
    expect(low).toBeCloseTo(0.85, 9);
  });

  it('gives the textbook point of three up, one down (79.37 %) when both steps are equal', () => {
    expect(0.5 ** (1 / CLEAN_RUN)).toBeCloseTo(0.7937, 4);
  });

  it('moves up in steps that are heard and do not unsettle: 3 to 5 %', () => {
    for (const step of [UP_STEP, ASCENT_STEP]) {
      expect(Math.exp(step) - 1).toBeGreaterThanOrEqual(0.03);
      expect(Math.exp(step) - 1).toBeLessThanOrEqual(0.05 + 1e-9);
    }
  });
});
