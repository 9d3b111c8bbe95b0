import { describe, expect, test } from 'vitest';
import { MINUTE_MS } from '$lib/core/time/moment';
import type { Learner, LearnerFactory, PassAsked } from '../bench/learners/contract';
import { keepingContract } from '../bench/learners/contract-check';
import { laws } from '../bench/learners/laws/all.mjs';
import { Practice } from '../bench/learners/practice';
import { simulate, type Run } from '../bench/learners/simulate';
import { FIRST_DAY, madeTunes } from '../bench/learners/tunes';

const DAY = 86_400_000;

/** Plays everything clean and remembers what it was asked. */
function recorder() {
  const passes: PassAsked[] = [];
  const nights: number[] = [];
  const learner: Learner = {
    play(pass) {
      passes.push(pass);
      return { outcome: 'clean', missAt: null };
    },
    night: (at) => void nights.push(at),
    ready: () => 100,
  };
  return { passes, nights, learner };
}

function practiceOf(learner: Learner, minutes = 20, isDone = () => false) {
  const practice = new Practice(() => learner, madeTunes(5, 1), minutes, isDone);
  const other = practice.tunes.find(({ tuning }) => tuning !== practice.tunes[0]!.tuning);
  if (!other) throw new Error('five tunes have more than one tuning');
  return { practice, tune: practice.tunes[0]!, other };
}

// the costs are those of the issue: a pass its beats plus 3 s, a change of passage 15 s, a retuning 120 s
describe('the clock', () => {
  test('a pass costs its beats and 3 s, a passage taken up 15 s', () => {
    const { practice, tune } = practiceOf(recorder().learner);
    const four = { tune, from: 0, count: 4 };
    practice.play(four, 60);
    expect(practice.spentMs).toBe(1000 * (15 + 8 + 3));
    practice.play(four, 120);
    expect(practice.spentMs).toBe(1000 * (15 + 8 + 3 + 4 + 3));
    practice.play({ tune, from: 4, count: 1 }, 60);
    expect(practice.spentMs).toBe(1000 * (33 + 15 + 2 + 3));
  });

  test('a retuning costs 120 s, the first tuning nothing', () => {
    const { practice, tune, other } = practiceOf(recorder().learner);
    practice.play({ tune, from: 0, count: 1 }, 60);
    expect(practice.retunes).toBe(0);
    practice.play({ tune: other, from: 0, count: 1 }, 60);
    expect(practice.retunes).toBe(1);
    expect(practice.spentMs).toBe(1000 * (15 + 5 + 120 + 15 + 5));
  });

  test('a pass begins after its charges, and the third of a passage is from memory', () => {
    const { learner, passes } = recorder();
    const { practice, tune } = practiceOf(learner);
    for (let pass = 0; pass < 3; pass++) practice.play({ tune, from: 2, count: 2 }, 60);
    expect(passes.map(({ at }) => at - FIRST_DAY)).toEqual([15_000, 22_000, 29_000]);
    expect(passes.map(({ fromMemory }) => fromMemory)).toEqual([false, false, true]);
    expect(passes[0]?.figures).toEqual(tune.figures.slice(2, 4));
  });

  test('the day ends, the night comes once, and the next day begins anew', () => {
    const { learner, nights } = recorder();
    const { practice, tune } = practiceOf(learner, 5);
    const one = { tune, from: 0, count: 1 };
    while (practice.minutesLeft > 0) practice.play(one, 60);
    expect(practice.spentMs).toBe(5 * MINUTE_MS);
    expect(nights).toEqual([]);
    practice.sleep();
    expect(nights).toEqual([FIRST_DAY + DAY]);
    expect([practice.minutesLeft, practice.day, practice.sittings]).toEqual([5, 1, 1]);
    const before = practice.spentMs;
    practice.play(one, 60);
    expect(practice.spentMs - before).toBe(20_000);
  });

  test('it stops as soon as the aim is seen, at most a minute late', () => {
    const { practice, tune } = practiceOf(recorder().learner, 20, () => true);
    while (practice.minutesLeft > 0) practice.play({ tune, from: 0, count: 1 }, 60);
    expect(practice.done).toBe(true);
    expect(practice.spentMs).toBeLessThan(1.2 * MINUTE_MS);
  });
});

describe('the contract', () => {
  const input = { seed: 1, tunes: [{ id: 't', goal: 100, beats: 2, figures: ['a', 'b'] }] };
  const asked = { tuneId: 't', figures: ['a', 'b'], tempo: 60, at: FIRST_DAY, fromMemory: false };
  const made = (own: object) => keepingContract(() => ({ ...recorder().learner, ...own }))(input);

  test.each([
    [undefined, 'default export'],
    [{ play: 1 }, 'default export'],
  ])('a module that exports %o is refused', (module, words) => {
    expect(() => keepingContract(module)).toThrow(words);
  });

  test.each(['play', 'night', 'ready'])('a learner without %s is refused', (name) => {
    expect(() => made({ [name]: undefined })).toThrow(`${name} is missing`);
  });

  test('a factory that makes nothing is refused', () => {
    expect(() => keepingContract(() => null)(input)).toThrow('play is missing');
  });

  test.each([
    [{ outcome: 'perfect', missAt: null }, 'saw perfect'],
    [{ missAt: null }, 'saw undefined'],
    [undefined, 'saw undefined'],
    [{ outcome: 'stumbled', missAt: 2 }, 'saw 2'],
    [{ outcome: 'stumbled', missAt: -1 }, 'saw -1'],
    [{ outcome: 'stumbled', missAt: 0.5 }, 'saw 0.5'],
    [{ outcome: 'stumbled' }, 'saw undefined'],
  ])('a pass that answers %o is refused', (answer, words) => {
    expect(() => made({ play: () => answer }).play(asked)).toThrow(words);
  });

  test.each([0, -5, NaN, Infinity, undefined, '90'])('ready for %o is refused', (tempo) => {
    expect(() => made({ ready: () => tempo }).ready('t', FIRST_DAY)).toThrow('finite tempo');
  });

  test('what keeps it passes through', () => {
    const answer = { outcome: 'stumbled', missAt: 1 };
    expect(made({ play: () => answer }).play(asked)).toEqual(answer);
    expect(made({}).ready('t', FIRST_DAY)).toBe(100);
    expect(made({}).fork).toBeUndefined();
  });
});

describe('a run', () => {
  const run: Run = {
    ...{ learnerFile: 'hard-seams', policy: 'play-through', scenario: 'one tune' },
    ...{ seed: 2, days: 4, minutes: 20 },
  };
  const factory: LearnerFactory = laws['hard-seams'];

  test.each(['play-through', 'random-passage', 'oracle'])(
    '%s: the same seed gives the same figures',
    (policy) => {
      const days = policy === 'oracle' ? 1 : 4;
      const figures = (seed: number) => {
        let ready = 0;
        const watched: LearnerFactory = (input) => {
          const learner = factory(input);
          return { ...learner, ready: (tuneId, at) => (ready = learner.ready(tuneId, at)) };
        };
        return [simulate(watched, { ...run, policy, days, seed }), ready];
      };
      expect(figures(2)).toEqual(figures(2));
      expect(figures(2)).not.toEqual(figures(3));
    },
  );

  test('a tune that is never ready takes all the minutes and a little over', () => {
    const { reached, minutes } = simulate(() => ({ ...recorder().learner, ready: () => 1 }), run);
    expect(reached).toBe(false);
    expect(minutes).toBeGreaterThanOrEqual(80);
    expect(minutes).toBeLessThan(84);
  });
});
