import { describe, expect, it } from 'vitest';
import {
  downStep,
  nextStep,
  startClimb,
  STEADINESS,
  UP_STEP,
  type ClimbState,
} from '../../src/lib/core/practice/climb';
import { seeded } from '../bench/random';

/**
 * Kaernbach 1991, "Simple adaptive testing with the weighted up-down method", Perception & Psychophysics 49:227-229 [from memory]:
 * a staircase converges where S_up * p = S_down * (1 - p). With steps up after k clean passes in a row the chance of a step up
 * is p^k, as in Levitt 1971, "Transformed up-down methods in psychoacoustics", JASA 49:467-477 [from memory].
 */
function convergence(up: number, down: number, run: number): number {
  let [low, high] = [0, 1];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (up * middle ** run > down * (1 - middle ** run)) high = middle;
    else low = middle;
  }
  return low;
}

/** A known psychometric function: clean half the time at 100, falling along a logistic in log tempo. */
const SLOPE = 8;
const chanceAt = (tempo: number): number => 1 / (1 + Math.exp(SLOPE * Math.log(tempo / 100)));

/** The staircase that the paper describes, played by a learner with that function: the mean chance at its tempos. */
function restingChance(up: number, down: number, run: number, seed: number): number {
  const random = seeded(seed);
  let [level, cleanRun, sum, counted] = [Math.log(60), 0, 0, 0];
  for (let pass = 0; pass < 60_000; pass++) {
    const chance = chanceAt(Math.exp(level));
    if (pass >= 1000) {
      sum += level;
      counted += 1;
    }
    if (random() >= chance) [level, cleanRun] = [level - down, 0];
    else if (++cleanRun === run) [level, cleanRun] = [level + up, 0];
  }
  return chanceAt(Math.exp(sum / counted));
}

describe.each(STEADINESS)('the weighted up-down rule, up to $measures measures', ({ run, chance }) => {
  const down = downStep(chance, run);

  it('has the published convergence point where this climb is to rest', () => {
    expect(convergence(UP_STEP, down, run)).toBeCloseTo(chance, 9);
  });

  it('comes to rest there with a learner whose chances are known', () => {
    for (const seed of [1, 2, 3]) {
      expect(Math.abs(restingChance(UP_STEP, down, run, seed) - chance)).toBeLessThan(0.03);
    }
  });

  it('is where the drill itself comes to rest, but for its way back to the comfortable tempo after two misses', () => {
    const measures = STEADINESS.find((row) => row.run === run)?.measures ?? 1;
    for (const seed of [1, 2, 3]) {
      const random = seeded(seed);
      const aims = { comfortable: 60, toward: 300, goal: 300, measures: Math.min(32, measures), doubt: 0 };
      let state: ClimbState = { ...startClimb({ kind: 'steady', ...aims }), ascending: false };
      let [sum, counted] = [0, 0];
      for (let pass = 0; pass < 60_000; pass++) {
        const outcome = random() < chanceAt(state.level) ? 'clean' : 'stumbled';
        if (pass >= 1000) [sum, counted] = [sum + Math.log(state.level), counted + 1];
        const { tempo } = state;
        state = nextStep({ ...state, comfortable: tempo }, outcome).state;
      }
      expect(Math.abs(chanceAt(Math.exp(sum / counted)) - convergence(UP_STEP, down, run))).toBeLessThan(
        0.03,
      );
    }
  });

  it('is stepped by the drill as the rule says', () => {
    const measures = STEADINESS.find((row) => row.run === run)?.measures ?? 1;
    const started = startClimb({
      ...{ kind: 'steady', comfortable: 100, toward: 200, goal: 200, doubt: 0 },
      measures: Number.isFinite(measures) ? measures : 32,
    });
    let state = nextStep({ ...started, ascending: false }, 'stumbled').state;
    expect(Math.log(state.level / 100)).toBeCloseTo(-down, 9);
    const before = state.level;
    for (let pass = 0; pass < run; pass++) {
      expect(state.level).toBe(before);
      state = nextStep(state, 'clean').state;
    }
    expect(Math.log(state.level / before)).toBeCloseTo(UP_STEP, 9);
  });
});

describe('the check itself', () => {
  it('finds the textbook points of equal steps: 50 % of one up, one down, 79.37 % of three up, one down', () => {
    expect(convergence(1, 1, 1)).toBeCloseTo(0.5, 9);
    expect(convergence(1, 1, 3)).toBeCloseTo(0.7937, 4);
    expect(restingChance(0.03, 0.03, 1, 1)).toBeCloseTo(0.5, 1);
    expect(Math.abs(restingChance(0.03, 0.03, 3, 1) - 0.7937)).toBeLessThan(0.03);
  });

  it('tells a staircase with other steps', () => {
    expect(Math.abs(restingChance(UP_STEP, UP_STEP, 1, 1) - 0.85)).toBeGreaterThan(0.2);
  });
});

// Drake & Botte 1993, Percept & Psychophys 54:277-286: tempo JND 6/4/3.2/3 % for 1/2/4/6 intervals [looked up: abstract]; SCIENCE.md 2
// implication 8: 3-5 % a step, back after errors
it('goes up in steps that are heard and do not unsettle: 3 to 5 %', () => {
  expect(Math.exp(UP_STEP) - 1).toBeGreaterThanOrEqual(0.03);
  expect(Math.exp(UP_STEP) - 1).toBeLessThanOrEqual(0.05);
});
