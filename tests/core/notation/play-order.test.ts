import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { playOrder } from '../../../src/lib/core/notation/play-order';
import type { ScoreMeasure } from '../../../src/lib/core/notation/score';
import { bar } from './drawn-scores';

const played = (measures: readonly ScoreMeasure[], order: readonly string[] | null = null): string =>
  playOrder({ name: '', measures }, order).join(' ');
const plain = bar([67, 69, 71, 69]);
const opens = { ...plain, opensRepeat: true };
const closes = { ...plain, timesPlayed: 2 };

describe('measures as they are played (ABC 2.1, sections 4.8, 4.9 and 3.1.9)', () => {
  test.each<[string, ScoreMeasure[], string]>([
    ['without signs, once', [plain, plain], '0 1'],
    ['a repeat', [plain, opens, closes, plain], '0 1 2 1 2 3'],
    ['a repeat without its beginning, from the start', [plain, closes, plain], '0 1 0 1 2'],
    ['and from the last repeat', [closes, plain, closes], '0 0 1 2 1 2'],
    ['and from the last double bar', [{ ...plain, endsSection: true }, plain, closes], '0 1 2 1 2'],
    ['one measure that opens and closes', [{ ...opens, timesPlayed: 2 }, plain], '0 0 1'],
    ['three times', [{ ...opens, timesPlayed: 3 }, plain], '0 0 0 1'],
  ])('%s', (_, measures, expected) => {
    expect(played(measures)).toBe(expected);
  });

  const first = { ...closes, ending: [1] };
  const second = { ...plain, ending: [2] };
  test.each<[string, ScoreMeasure[], string]>([
    ['a first and a second ending', [opens, first, second, plain], '0 1 0 2 3'],
    ['with or without the opening sign', [plain, first, second, plain], '0 1 0 2 3'],
    ['a second one that closes as well', [opens, first, { ...second, timesPlayed: 2 }, plain], '0 1 0 2 3'],
    ['endings of two measures', [opens, { ...plain, ending: [1] }, first, second, second], '0 1 2 0 3 4'],
    [
      'one ending for the first and the third time',
      [opens, { ...first, ending: [1, 3] }, { ...second, timesPlayed: 2 }, plain],
      '0 1 0 2 0 1 3',
    ],
    [
      'two halves of a tune, each with its own',
      [opens, first, second, opens, first, second],
      '0 1 0 2 3 4 3 5',
    ],
    [
      'brackets that no repeat goes with are played through',
      [plain, { ...plain, ending: [1] }, second],
      '0 1 2',
    ],
  ])('%s', (_, measures, expected) => {
    expect(played(measures)).toBe(expected);
  });

  test('parts in the order that the head of the tune gives, each with its repeats', () => {
    const measures = [plain, { ...plain, part: 'A' }, { ...opens, part: 'B' }, closes];
    expect(played(measures, ['A', 'B', 'A', 'C'])).toBe('0 1 2 3 2 3 1');
  });

  test('nonsense ends, and names measures that are there', () => {
    const someBar = fc
      .record({
        opensRepeat: fc.boolean(),
        timesPlayed: fc.constantFrom(0, 0, 2, 3, 1_000_000),
        ending: fc.option(fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 3 })),
        endsSection: fc.boolean(),
        part: fc.option(fc.constantFrom('A', 'B')),
      })
      .map((change) => ({ ...plain, ...change }));
    fc.assert(
      fc.property(
        fc.array(someBar, { maxLength: 30 }),
        fc.option(fc.array(fc.constantFrom('A', 'B', 'C'), { maxLength: 20 })),
        (measures, order) => {
          const indices = playOrder({ name: '', measures }, order);
          expect(indices.length).toBeLessThanOrEqual(20_000);
          expect(indices.every((index) => measures[index] !== undefined)).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });
});
