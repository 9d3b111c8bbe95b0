import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DAY_RESULTS,
  dayResult,
  dueDay,
  fading,
  LONGEST_GAP_DAYS,
  recallAt,
  remember,
  rustAt,
  type DayPass,
  type Memory,
} from '../../../src/lib/core/practice/memory';

const pass = (outcome: DayPass['outcome'], fromMemory = true, nearSettled = true): DayPass => ({
  outcome,
  fromMemory,
  nearSettled,
});

describe('the result of a day', () => {
  it.each([
    ['nothing played', [], null],
    ['clean from memory', [pass('clean')], 'held'],
    ['three clean from memory', [pass('clean'), pass('clean'), pass('clean')], 'held with ease'],
    ['clean with the tab in view', [pass('clean', false)], 'shaky'],
    ['a stumble, then clean', [pass('stumbled'), pass('clean')], 'shaky'],
    ['stumbles only', [pass('stumbled'), pass('stumbled')], 'lost'],
    ['a breakdown, then clean', [pass('broke down'), pass('clean')], 'lost'],
    ['clean, but only slowly', [pass('clean', true, false)], 'shaky'],
    ['slow misses before the tempo counts', [pass('stumbled', true, false), pass('clean')], 'held'],
  ] as const)('%s', (_name, passes, result) => {
    expect(dayResult(passes)).toBe(result);
  });

  it('is that of the first passes, not of the later ones', () => {
    const first = [pass('clean'), pass('stumbled'), pass('clean')];
    expect(dayResult([...first, pass('broke down')])).toBe(dayResult(first));
  });
});

describe('a memory', () => {
  it('takes one result a day and never runs backwards', () => {
    const first = remember(null, 'held', 20_000);
    expect(remember(first, 'lost', 20_000)).toBe(first);
    expect(remember(first, 'lost', 19_990)).toBe(first);
    expect(recallAt(first, 19_000)).toBe(1);
    expect(recallAt(null, 20_000)).toBe(0);
  });

  it('is never NaN, fades day by day, and is due within the cap, whatever came before', () => {
    const days = fc.array(fc.tuple(fc.constantFrom(...DAY_RESULTS), fc.integer({ min: -400, max: 9000 })), {
      minLength: 1,
      maxLength: 40,
    });
    fc.assert(
      fc.property(days, (results) => {
        let memory: Memory | null = null;
        let day = 11_000;
        for (const [result, gap] of results) memory = remember(memory, result, (day += gap));
        if (!memory) throw new Error('no day was remembered');
        const due = dueDay(memory) - memory.day;
        expect(due).toBeGreaterThanOrEqual(1);
        expect(due).toBeLessThanOrEqual(LONGEST_GAP_DAYS);
        let before = 1;
        for (const away of [0, 1, 2, 7, 60, 365, 10_000]) {
          const recall = recallAt(memory, memory.day + away);
          expect(recall).toBeLessThanOrEqual(before);
          expect(recall).toBeGreaterThanOrEqual(0);
          const { sink, variance } = fading(memory, memory.day + away);
          expect(sink).toBeGreaterThanOrEqual(0);
          expect(variance).toBeGreaterThanOrEqual(0);
          before = recall;
        }
      }),
    );
  });

  it('grows from fresh to faded in words as days go by', () => {
    const memory = remember(null, 'held', 0);
    const words = [0, 1, 5, 40].map((day) => rustAt(memory, day));
    expect(words).toEqual(['fresh', 'fresh', 'beginning to fade', 'likely faded']);
    expect(rustAt(null, 40)).toBe('fresh');
  });
});
