import { describe, expect, it } from 'vitest';
import { recallAt, remember } from '$lib/core/practice/memory';
import { DAY_MS, HOUR_MS, MINUTE_MS, type Moment } from '$lib/core/time/moment';
import { practiceDay, practiceDayDate } from '$lib/core/time/practice-day';

/**
 * Practice days across changes of the clocks and journeys, against `Intl.DateTimeFormat`, whose rules come from the IANA time
 * zone database as the platform carries it.
 */
function inZone(at: number, timeZone: string): { date: string; hour: number; offsetMin: number } {
  const format = new Intl.DateTimeFormat('en-US', {
    ...{ timeZone, hourCycle: 'h23', year: 'numeric', month: '2-digit', day: '2-digit' },
    ...{ hour: '2-digit', minute: '2-digit', second: '2-digit' },
  });
  const parts = Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, value]));
  const { year, month, day, hour, minute, second } = parts;
  const [y, mo, d, h, mi, s] = [year, month, day, hour, minute, second].map(Number);
  const local = Date.UTC(y!, mo! - 1, d, h, mi, s);
  return { date: `${year}-${month}-${day}`, hour: h!, offsetMin: Math.round((local - at) / MINUTE_MS) };
}

const momentIn = (at: number, timeZone: string): Moment => ({
  at,
  offsetMin: inZone(at, timeZone).offsetMin,
});

function dayBefore(date: string): string {
  return new Date(Date.parse(date) - DAY_MS).toISOString().slice(0, 10);
}

// changes of the clocks in 2026: the European Union's on the last Sundays of March and October at 01:00 UTC, the United
// States' on 8 March and 1 November at 02:00 local time (Directive 2000/84/EC; Energy Policy Act of 2005) [from memory]
const CHANGES = [
  ['Europe/Berlin', Date.UTC(2026, 2, 29, 1), [60, 120]],
  ['Europe/Berlin', Date.UTC(2026, 9, 25, 1), [120, 60]],
  ['America/New_York', Date.UTC(2026, 2, 8, 7), [-300, -240]],
  ['America/New_York', Date.UTC(2026, 10, 1, 6), [-240, -300]],
  ['Australia/Lord_Howe', Date.UTC(2026, 3, 4, 15), [660, 630]],
] as const;

describe.each(CHANGES)('%s, when the clocks change', (timeZone, change, [before, after]) => {
  it('has the change where the table says: the check can fail', () => {
    expect(inZone(change - 1000, timeZone).offsetMin).toBe(before);
    expect(inZone(change, timeZone).offsetMin).toBe(after);
  });

  it.each([0, 4, 6])(
    'every quarter of an hour of eight days lies on its local date, days beginning at %i',
    (startsAt) => {
      for (let at = change - 4 * DAY_MS; at < change + 4 * DAY_MS; at += 15 * MINUTE_MS) {
        const { date, hour } = inZone(at, timeZone);
        const expected = hour < startsAt ? dayBefore(date) : date;
        expect(practiceDayDate(practiceDay(momentIn(at, timeZone), startsAt))).toBe(expected);
      }
    },
  );

  it('an evening and the next are one day apart, for the memory too', () => {
    const noon = change - (change % DAY_MS);
    const evenings = Array.from({ length: 5 }, (_, night) => {
      // 20:00 by the local clock, found by trying: the day may have 23, 24 or 25 hours
      const start = noon + (night - 2) * DAY_MS;
      for (let at = start - DAY_MS; at < start + 2 * DAY_MS; at += 30 * MINUTE_MS) {
        const { date, hour } = inZone(at, timeZone);
        if (hour === 20 && date === new Date(start).toISOString().slice(0, 10)) return momentIn(at, timeZone);
      }
      throw new Error('No evening');
    });
    const days = evenings.map((moment) => practiceDay(moment));
    expect(days.map((day) => day - days[0]!)).toEqual([0, 1, 2, 3, 4]);
    const memory = remember(null, 'held', days[0]!);
    // SCIENCE.md 1.1 [computed]: a first Good has the stability 2.3065, so that after a day R = (1 + 0.98034649 / 2.3065)^-0.1542
    expect(recallAt(memory, days[1]!)).toBeCloseTo((1 + 0.98034649 / 2.3065) ** -0.1542, 6);
  });
});

describe('a journey', () => {
  it('keeps each day as it was where it was played: Berlin in the evening, New York the same evening', () => {
    const berlin = momentIn(Date.UTC(2026, 6, 10, 18), 'Europe/Berlin');
    // ten hours on, 00:00 by the clock of New York: still the evening before, for a day begins at four
    const newYork = momentIn(berlin.at + 10 * HOUR_MS, 'America/New_York');
    expect(inZone(newYork.at, 'Europe/Berlin').date).toBe('2026-07-11');
    expect(practiceDayDate(practiceDay(berlin))).toBe('2026-07-10');
    expect(practiceDayDate(practiceDay(newYork))).toBe('2026-07-10');
  });

  it('across the date line westwards skips a date, and eastwards has one twice', () => {
    const honolulu = momentIn(Date.UTC(2026, 6, 10, 20), 'Pacific/Honolulu');
    const auckland = momentIn(Date.UTC(2026, 6, 11, 20), 'Pacific/Auckland');
    expect([honolulu, auckland].map((moment) => practiceDayDate(practiceDay(moment)))).toEqual(
      [honolulu, auckland].map(
        ({ at }, place) => inZone(at, ['Pacific/Honolulu', 'Pacific/Auckland'][place]!).date,
      ),
    );
    expect(practiceDay(auckland) - practiceDay(honolulu)).toBe(2);
    const back = momentIn(auckland.at + 10 * HOUR_MS, 'Pacific/Honolulu');
    expect(practiceDay(back)).toBe(practiceDay(honolulu) + 1);
  });
});
