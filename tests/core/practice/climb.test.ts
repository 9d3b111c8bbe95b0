import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  doubtOf,
  nextStep,
  setTempoByHand,
  startClimb,
  STEADINESS,
  type ClimbStart,
  type ClimbState,
} from '../../../src/lib/core/practice/climb';
import { drillIsDone } from '../../../src/lib/core/practice/drill-end';
import { CLIMBS, OUTCOMES, type Outcome } from '../../../src/lib/core/practice/records';
import { seededDraw } from '../../../sample-data/made-up-learner';
import { chanceFor, tempoAtChance } from './learner';

function whys(state: ClimbState, outcomes: readonly (Outcome | null)[]): string[] {
  const said: string[] = [];
  for (const outcome of outcomes) {
    const step = nextStep(state, outcome);
    said.push(step.move.why);
    state = step.state;
  }
  return said;
}

/** One measure, and sure of where it stands. */
const sure = { measures: 1, doubt: 0 };
const steady = (change: Partial<ClimbStart> = {}) =>
  startClimb({ kind: 'steady', comfortable: 66, toward: 90, goal: 110, ...sure, ...change });

describe('a steady climb', () => {
  // by hand: 66 -> 69.3 -> 72.8, times e^-0.0624 = 68.4, times 1.04 = 71.1
  it('rises with every clean pass until the first miss, then after three', () => {
    expect(whys(steady(), ['clean', 'clean', 'stumbled', 'clean', 'clean', 'clean'])).toEqual([
      'clean: up 5 %',
      'clean: up 6 %',
      'a miss: down 7 %',
      'one clean of three: stay at 68',
      'two clean of three: stay at 68',
      'three clean: up 4 %',
    ]);
  });

  it('goes back to the comfortable tempo after two misses in a row, and up again from there', () => {
    expect(whys(steady(), ['clean', 'clean', 'clean', 'stumbled', 'broke down', 'clean'])).toEqual([
      'clean: up 5 %',
      'clean: up 6 %',
      'clean: up 4 %',
      'a miss: down 5 %',
      'two misses: back to 66',
      'clean: up 5 %',
    ]);
  });

  it('leaves the tempo when a pass is not marked', () => {
    const state = steady();
    expect(nextStep(state, null)).toEqual({
      state,
      move: { from: 66, to: 66, why: 'not marked: stay at 66' },
    });
  });

  it('comes to rest where a pass is clean about 85 times in 100', () => {
    for (const [seed, slope] of [5, 7.5, 12, 20].entries()) {
      const learner = { settled: 80, slope, lapse: 0 };
      const comfortable = tempoAtChance(learner, 0.95);
      let state = startClimb({ kind: 'steady', comfortable, toward: 160, goal: 160, ...sure });
      const random = seededDraw(seed);
      let clean = 0;
      for (let pass = 0; pass < 20_000; pass++) {
        const outcome = random() < chanceFor(learner, state.tempo) ? 'clean' : 'stumbled';
        if (pass >= 100 && outcome === 'clean') clean += 1;
        state = nextStep(state, outcome).state;
      }
      expect(clean / 19_900).toBeGreaterThan(0.835);
      expect(clean / 19_900).toBeLessThan(0.89);
    }
  });
});

describe('a steady climb of a longer passage', () => {
  it('goes up after fewer clean passes in a row: three, two from three measures on, one from five on', () => {
    const runAt = (measures: number) => {
      let state = nextStep(steady({ measures }), 'stumbled').state;
      for (let run = 1; ; run++) {
        const before = state.tempo;
        state = nextStep(state, 'clean').state;
        if (state.tempo > before) return run;
      }
    };
    expect([1, 2, 3, 4, 5, 16, 400].map(runAt)).toEqual([3, 3, 2, 2, 1, 1, 1]);
  });

  // by hand: 66 times e^-0.0504 = 62.8, times 1.04 = 65.3; 66 times e^-0.0640 = 61.9, times 1.04 = 64.4
  it('says so', () => {
    expect(whys(steady({ measures: 4 }), ['stumbled', 'clean', 'clean'])).toEqual([
      'a miss: down 5 %',
      'one clean of two: stay at 63',
      'two clean: up 3 %',
    ]);
    expect(whys(steady({ measures: 16 }), ['stumbled', 'clean'])).toEqual([
      'a miss: down 6 %',
      'clean: up 3 %',
    ]);
  });

  it('is clean no less often than its rule says, and more where two misses take it back to the comfortable tempo', () => {
    for (const [seed, { measures, chance }] of STEADINESS.entries()) {
      const learner = { settled: 80, slope: 10, lapse: 0 };
      const aims = { toward: 160, goal: 160, measures: Math.min(16, measures), doubt: 0 };
      let state = startClimb({ kind: 'steady', comfortable: tempoAtChance(learner, 0.95), ...aims });
      const random = seededDraw(seed);
      let clean = 0;
      for (let pass = 0; pass < 20_000; pass++) {
        const outcome = random() < chanceFor(learner, state.tempo) ? 'clean' : 'stumbled';
        if (outcome === 'clean') clean += 1;
        state = nextStep(state, outcome).state;
      }
      expect(clean / 20_000).toBeGreaterThan(chance - 0.015);
      expect(clean / 20_000).toBeLessThan(0.89);
    }
  });
});

describe('the first ascent', () => {
  const stepOf = (doubt: number) =>
    nextStep(steady({ comfortable: 100, toward: 200, goal: 200, doubt }), 'clean').state.tempo;

  it('takes longer steps the less sure it is of the tempo: 5 % to 12 %', () => {
    const steps = [0, 0.3, 0.45, 0.6, 0.68, 2].map(stepOf);
    expect(steps).toEqual([...steps].sort((a, b) => a - b));
    expect([steps[0], steps.at(-1)]).toEqual([105, 112]);
    // a sixth of the doubt, in log tempo: exp(0.6 / 6) = 1.105
    expect(stepOf(0.6)).toBe(111);
    for (const doubt of [NaN, -1]) expect(stepOf(doubt)).toBe(105);
    expect(stepOf(Infinity)).toBe(112);
  });

  it('goes on in the usual steps after the first miss', () => {
    const start = steady({ comfortable: 100, toward: 200, goal: 200, doubt: 1 });
    expect(whys(start, ['clean', 'clean', 'stumbled', 'clean', 'clean', 'clean'])).toEqual([
      'clean: up 12 %',
      'clean: up 12 %',
      'a miss: down 6 %',
      'one clean of three: stay at 118',
      'two clean of three: stay at 118',
      'three clean: up 4 %',
    ]);
  });

  it('is in doubt by the width of the interval, and most where nothing was played', () => {
    expect(doubtOf({ settled: { tempo: 80, low: 70, high: 91 } })).toBeCloseTo(Math.log(91 / 70), 12);
    expect(doubtOf({ settled: { tempo: 80, low: 80, high: 80 } })).toBe(0);
    expect(stepOf(doubtOf({ settled: null }))).toBe(112);
  });
});

it('an alternating climb goes between the comfortable tempo and the fast one', () => {
  let state = startClimb({ kind: 'alternating', comfortable: 60, toward: 90, goal: 100, ...sure });
  const tempos: number[] = [];
  for (const outcome of ['clean', 'stumbled', 'clean', 'clean', 'clean'] as const) {
    state = nextStep(state, outcome).state;
    tempos.push(state.tempo);
  }
  expect(tempos).toEqual([90, 60, 85, 60, 88]);
});

it('a climb by hand never moves by itself', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...OUTCOMES, null)), (outcomes) => {
      let state = startClimb({ kind: 'by hand', comfortable: 66, toward: 90, goal: 110, ...sure });
      state = setTempoByHand(state, 71);
      for (const outcome of outcomes) state = nextStep(state, outcome).state;
      expect(state.tempo).toBe(71);
    }),
  );
});

describe('any climb', () => {
  const anyNumber = fc.oneof(
    fc.double({ min: 1, max: 400, noNaN: true }),
    fc.constantFrom(NaN, Infinity, -3, 0),
  );
  const anyStart = fc.record({
    kind: fc.constantFrom(...CLIMBS),
    comfortable: anyNumber,
    toward: anyNumber,
    goal: anyNumber,
    measures: anyNumber,
    doubt: anyNumber,
  });
  const anyStep = fc.oneof(
    { weight: 8, arbitrary: fc.constantFrom<Outcome | null>(...OUTCOMES, null) },
    { weight: 1, arbitrary: anyNumber },
  );

  it('keeps to whole tempos from 20 to 300, and never rises by itself past its aim by more than a step', () => {
    fc.assert(
      fc.property(anyStart, fc.array(anyStep, { maxLength: 60 }), (start, steps) => {
        let state = startClimb(start);
        const { toward } = state;
        for (const step of steps) {
          const before = state.tempo;
          const byHand = typeof step === 'number';
          state = byHand ? setTempoByHand(state, step) : nextStep(state, step).state;
          expect(Number.isInteger(state.tempo)).toBe(true);
          expect(state.tempo).toBeGreaterThanOrEqual(20);
          expect(state.tempo).toBeLessThanOrEqual(300);
          if (byHand || state.tempo <= before) continue;
          expect(state.tempo).toBeLessThanOrEqual(Math.max(toward + 1, toward * 1.04));
          if (Number.isFinite(start.goal) && start.goal >= toward) {
            expect(state.tempo).toBeLessThanOrEqual(Math.max(toward, 1.1 * start.goal));
          }
        }
      }),
    );
  });

  it('says where it moved: the sentence, the tempo and the state agree', () => {
    fc.assert(
      fc.property(anyStart, fc.array(fc.constantFrom<Outcome | null>(...OUTCOMES, null)), (start, steps) => {
        let state = startClimb(start);
        for (const step of steps) {
          const { state: next, move } = nextStep(state, step);
          expect([move.from, move.to]).toEqual([state.tempo, next.tempo]);
          if (step === null) expect(next).toEqual(state);
          if (/: up \d/.test(move.why)) expect(move.to).toBeGreaterThan(move.from);
          if (/: down \d/.test(move.why)) expect(move.to).toBeLessThan(move.from);
          if (/: stay at /.test(move.why)) expect(move.to).toBe(move.from);
          state = next;
        }
      }),
    );
  });
});

it('setting a tempo that is no number changes nothing', () => {
  const state = steady();
  expect(setTempoByHand(state, NaN)).toBe(state);
  expect(setTempoByHand(state, 5000).tempo).toBe(300);
  expect(setTempoByHand(state, -1).tempo).toBe(20);
});

describe('the end of a drill', () => {
  const sharp = { tempo: 84, low: 81, high: 87 };
  const clean = Array<Outcome>(14).fill('clean');

  it('comes when the time is up', () => {
    expect(drillIsDone({ elapsedMin: 3, minutes: 3, settled: null, outcomes: [] })).toBe(
      'The time for this one is up.',
    );
    expect(drillIsDone({ elapsedMin: 2.9, minutes: 3, settled: null, outcomes: [] })).toBeNull();
  });

  it('comes when the estimate is sharp and the newest passes are clean', () => {
    expect(drillIsDone({ elapsedMin: 1, minutes: 3, settled: sharp, outcomes: clean })).toBe(
      'Clean at about 84, and sure of it: enough for today.',
    );
    expect(
      drillIsDone({ elapsedMin: 1, minutes: 3, settled: sharp, outcomes: [...clean, 'stumbled'] }),
    ).toBeNull();
    expect(
      drillIsDone({ elapsedMin: 1, minutes: 3, settled: { ...sharp, high: 110 }, outcomes: clean }),
    ).toBeNull();
  });

  it('comes when misses pile up', () => {
    const misses = Array<Outcome>(6).fill('stumbled');
    expect(
      drillIsDone({ elapsedMin: 1, minutes: 3, settled: null, outcomes: [...clean, ...misses] }),
    ).toMatch(/hands may be tired/);
    expect(drillIsDone({ elapsedMin: 1, minutes: 3, settled: null, outcomes: misses.slice(1) })).toBeNull();
  });
});
