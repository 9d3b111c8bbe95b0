import { createEmptyCard, fsrs, Rating, type Card, type Grade } from 'ts-fsrs';
import { describe, expect, it } from 'vitest';
import {
  dueDay,
  LONGEST_GAP_DAYS,
  recallAt,
  remember,
  type DayResult,
  type Memory,
} from '../../src/lib/core/practice/memory';
import { practiceDay } from '../../src/lib/core/time/practice-day';

// Source of every figure here: SCIENCE.md 1.1 and outside checks 1-6 [computed with ts-fsrs 5.4.2, FSRS-6]. They are
// checked twice: against the library as it is installed, so that an upgrade that changes them is seen, and through our module.

const DAY = 86_400_000;
const START = Date.UTC(2025, 0, 1, 12);
const LONG_TERM = { enable_fuzz: false, enable_short_term: false, request_retention: 0.9 };
const GRADES: Record<string, [Grade, DayResult]> = {
  A: [Rating.Again, 'lost'],
  H: [Rating.Hard, 'shaky'],
  G: [Rating.Good, 'held'],
  E: [Rating.Easy, 'held with ease'],
};

/** Reviews in the library, each exactly when due: the intervals and the stabilities. */
function inLibrary(letters: string) {
  const scheduler = fsrs(LONG_TERM);
  let card: Card = createEmptyCard(new Date(START));
  let now = START;
  return [...letters].map((letter) => {
    card = scheduler.next(card, new Date(now), GRADES[letter]![0]).card;
    now += card.scheduled_days * DAY;
    return { interval: card.scheduled_days, stability: card.stability };
  });
}

/** The same days through our module. */
function inOurs(letters: string, intervals: readonly number[]) {
  let memory: Memory | null = null;
  let day = START / DAY - 0.5;
  return [...letters].map((letter, index) => {
    memory = remember(memory, GRADES[letter]![1], day);
    day += intervals[index]!;
    return memory.stability;
  });
}

// SCIENCE.md 1.1, reference table, rows "LT 0.90" [computed]
const TABLE: [letters: string, intervals: number[], stabilities: number[]][] = [
  ['GGGGGG', [3, 14, 57, 196, 586, 1559], [2.3065, 13.8269, 56.9567, 196.2353, 586.4835, 1559.3567]],
  ['HHHHHH', [2, 4, 9, 15, 23, 32], [1.2931, 4.4695, 8.9052, 15.3249, 22.9618, 31.7324]],
  ['EEEE', [8, 66, 397, 1875], [8.2956, 65.6242, 396.775, 1874.917]],
  ['AAAA', [1, 1, 1, 1], [0.212, 0.1009, 0.055, 0.0334]],
  ['AGGGGG', [1, 3, 8, 22, 54, 124], [0.212, 1.8868, 7.6382, 21.6078, 54.2589, 123.6225]],
  ['GHGEG', [3, 9, 30, 138, 401], [2.3065, 9.2349, 30.3042, 137.9025, 400.5319]],
];

describe.each(TABLE)('%s (checks 2 and 3)', (letters, intervals, stabilities) => {
  it('is what the library does', () => {
    const seen = inLibrary(letters);
    expect(seen.map(({ interval }) => interval)).toEqual(intervals);
    for (const [index, { stability }] of seen.entries())
      expect(stability).toBeCloseTo(stabilities[index]!, 3);
  });

  it('is what our memory does', () => {
    for (const [index, stability] of inOurs(letters, intervals).entries()) {
      expect(stability).toBeCloseTo(stabilities[index]!, 3);
    }
  });
});

describe('check 1: the forgetting curve', () => {
  const scheduler = fsrs(LONG_TERM);

  it('is 0.9 after as many days as the stability, and 0.84588465 after twice that for 10 days', () => {
    for (const stability of [0.5, 1, 10, 365])
      expect(scheduler.forgetting_curve(stability, stability)).toBeCloseTo(0.9, 7);
    const memory: Memory = { stability: 10, difficulty: 5, day: 20_000 };
    const curve = [
      [0, 1],
      [1, 0.98568241],
      [5, 0.94034429],
      [10, 0.9],
      [20, 0.84588465],
      [50, 0.76052756],
      [100, 0.69282664],
      [365, 0.57355868],
    ] as const;
    for (const [days, recall] of curve) {
      expect(scheduler.forgetting_curve(days, 10)).toBeCloseTo(recall, 7);
      expect(recallAt(memory, 20_000 + days)).toBeCloseTo(recall, 7);
    }
  });

  it('asks for 0.40255869 of the stability at a retention of 0.95', () => {
    expect(fsrs({ ...LONG_TERM, request_retention: 0.95 }).interval_modifier).toBeCloseTo(0.40255869, 8);
  });
});

it('check 3: a lapse never leaves more stability than before it', () => {
  const intervals = [3, 14, 57, 3, 8, 19];
  const library = inLibrary('GGGAGG');
  expect(library.map(({ interval }) => interval)).toEqual(intervals);
  const ours = inOurs('GGGAGG', intervals);
  expect(ours[3]).toBeCloseTo(3.1881, 3);
  expect(library[3]!.stability).toBeLessThanOrEqual(library[2]!.stability);
  for (const stability of [0.05, 1, 10, 500]) {
    for (const away of [1, 5, 400]) {
      const memory: Memory = { stability, difficulty: 5, day: 20_000 };
      expect(remember(memory, 'lost', 20_000 + away).stability).toBeLessThanOrEqual(stability);
    }
  }
});

it('check 4: the library overshoots its own cap, our due day does not', () => {
  const capped = fsrs({ ...LONG_TERM, maximum_interval: 30 });
  const card: Card = {
    ...createEmptyCard(new Date(START)),
    ...{ stability: 200, difficulty: 5, state: 2, reps: 5, last_review: new Date(START - 200 * DAY) },
  };
  expect(capped.next(card, new Date(START), Rating.Good).card.scheduled_days).toBe(31);
  expect(capped.next(card, new Date(START), Rating.Easy).card.scheduled_days).toBe(32);
  let memory = remember(null, 'held with ease', 20_000);
  for (let times = 0; times < 10; times++) {
    memory = remember(memory, 'held with ease', dueDay(memory));
    expect(dueDay(memory) - memory.day).toBeLessThanOrEqual(LONGEST_GAP_DAYS);
  }
  expect(memory.stability).toBeGreaterThan(LONGEST_GAP_DAYS);
});

it('check 5: two passes 20 minutes apart across 00:00 UTC are one local day', () => {
  const before = Date.UTC(2025, 0, 1, 23, 50);
  const after = before + 20 * 60_000;
  const scheduler = fsrs(LONG_TERM);
  const first = scheduler.next(createEmptyCard(new Date(before)), new Date(before), Rating.Good).card;
  // the trap, as the library has it
  expect(scheduler.next(first, new Date(after), Rating.Good).card.stability).toBeCloseTo(7.3153, 3);

  const offsetMin = -300;
  const [dayBefore, dayAfter] = [before, after].map((at) => practiceDay({ at, offsetMin }));
  const memory = remember(null, 'held', dayBefore!);
  expect(remember(memory, 'held', dayAfter!).stability).toBeCloseTo(2.3065, 4);
});

it('check 6: late success earns more than success on time, and that more than an early one', () => {
  const fractions = [0.25, 0.5, 1, 2];
  const expected = [101.3, 139.9, 196.2, 276.3];
  const due = inLibrary('GGG')[2]!;
  const ours: number[] = [];
  for (const fraction of fractions) {
    let memory: Memory | null = null;
    for (const day of [0, 3, 17]) memory = remember(memory, 'held', day);
    ours.push(remember(memory, 'held', 17 + Math.round(due.interval * fraction)).stability);
  }
  for (const [index, stability] of ours.entries()) expect(stability).toBeCloseTo(expected[index]!, 0);
  expect(ours).toEqual([...ours].sort((a, b) => a - b));
});
