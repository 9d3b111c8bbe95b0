import { describe, expect, it } from 'vitest';
import { ASCENT_STEP, CLEAN_RUN, DOWN_STEP, UP_STEP } from '../../src/lib/core/practice/climb';

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
