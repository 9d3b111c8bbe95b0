import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OFFSET_MAX, OFFSET_MIN, TIME_MAX, TIME_MIN } from '../../../src/lib/core/book/limits';
import {
  dueDay,
  fading,
  recallAt,
  remember,
  rustAt,
  type Memory,
} from '../../../src/lib/core/practice/memory';
import {
  agoWords,
  calendarDate,
  fullDate,
  fullMonth,
  saidDay,
  shortDate,
} from '../../../src/lib/core/time/date-words';
import { DAY_MS, HOUR_MS } from '../../../src/lib/core/time/moment';
import { practiceDay, practiceDayDate, weekOf } from '../../../src/lib/core/time/practice-day';
import { momentAfter, momentWithin } from '../../../src/lib/core/time/running-moment';

/** Whatever a clock may say between the two ends of what a record may hold, on either side of the date line. */
const anyMoment = fc.record({
  at: fc.oneof(
    fc.integer({ min: TIME_MIN, max: TIME_MAX }),
    fc.constantFrom(TIME_MIN, TIME_MAX, Date.UTC(2036, 1, 29), Date.UTC(2026, 9, 25, 1)),
  ),
  offsetMin: fc.integer({ min: OFFSET_MIN, max: OFFSET_MAX }),
});
const anyHour = fc.integer({ min: 0, max: 12 });
const ODD = /NaN|undefined|Invalid|Infinity/;

describe('moments from 1970 to 2100', () => {
  it('have a practice day, a date and words, whichever of two comes first', () => {
    fc.assert(
      fc.property(anyMoment, anyMoment, anyHour, (one, other, hour) => {
        const [day, today] = [practiceDay(one, hour), practiceDay(other, hour)];
        expect(practiceDayDate(day)).toMatch(/^\d{4}-\d\d-\d\d$/);
        expect(day - weekOf(day)).toBeGreaterThanOrEqual(0);
        expect(day - weekOf(day)).toBeLessThan(7);
        expect(Object.values(calendarDate(day)).every(Number.isInteger)).toBe(true);
        const words = [
          saidDay(day, today),
          agoWords(one, other),
          fullDate(day),
          fullMonth(day),
          shortDate(day),
        ];
        for (const said of words) expect(said).not.toMatch(ODD);
        expect(agoWords(one, other)).not.toMatch(/-/);
      }),
    );
  });

  it('belong to one practice day for as long as it lasts by the clock on the wall', () => {
    fc.assert(
      fc.property(anyMoment, anyHour, (moment, hour) => {
        const day = practiceDay(moment, hour);
        const beginsAt = day * DAY_MS + hour * HOUR_MS - moment.offsetMin * 60_000;
        expect(practiceDay({ ...moment, at: beginsAt }, hour)).toBe(day);
        expect(practiceDay({ ...moment, at: beginsAt - 1 }, hour)).toBe(day - 1);
        expect(practiceDay({ ...moment, at: beginsAt + DAY_MS - 1 }, hour)).toBe(day);
      }),
    );
  });

  it('follow one another in the log, or come from a clock that was set back by more than three hours', () => {
    fc.assert(
      fc.property(anyMoment, anyMoment, (last, now) => {
        const next = momentAfter(last, now);
        expect(next.offsetMin).toBe(now.offsetMin);
        expect(next.at >= last.at || last.at - now.at > 3 * HOUR_MS).toBe(true);
      }),
    );
  });

  it('are held within what a record may say', () => {
    fc.assert(
      fc.property(fc.maxSafeInteger(), (at) => {
        const held = momentWithin({ at, offsetMin: 0 }, TIME_MIN, TIME_MAX).at;
        expect(held >= TIME_MIN && held <= TIME_MAX).toBe(true);
      }),
    );
  });
});

describe('a memory', () => {
  const anyDay = fc.integer({ min: 0, max: TIME_MAX / DAY_MS });
  const results = fc.array(
    fc.tuple(anyDay, fc.constantFrom('lost' as const, 'shaky' as const, 'held' as const)),
    { minLength: 1, maxLength: 8 },
  );

  it('of days in any order, asked on any day, is a chance, and never fades before its time', () => {
    fc.assert(
      fc.property(results, anyDay, (played, day) => {
        const memory = played.reduce<Memory | null>(
          (known, [on, result]) => remember(known, result, on),
          null,
        );
        const recall = recallAt(memory, day);
        expect(recall >= 0 && recall <= 1).toBe(true);
        const { sink, variance } = fading(memory, day);
        expect(sink >= 0 && Number.isFinite(sink) && variance >= 0 && Number.isFinite(variance)).toBe(true);
        if (!memory) return;
        expect(memory.day).toBe(Math.max(...played.map(([on]) => on)));
        expect(Number.isFinite(dueDay(memory))).toBe(true);
        if (day <= memory.day) expect(rustAt(memory, day)).toBe('fresh');
      }),
    );
  });
});
