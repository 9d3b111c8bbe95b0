import { describe, expect, it } from 'vitest';
import { calendarTicks, tempoTicks } from '../../../src/lib/core/progress/calendar-ticks';
import { fullDate, shortDate } from '../../../src/lib/core/time/date-words';
import { newestWeeks } from '../../../src/lib/core/progress/newest-weeks';
import { NO_MINUTES } from '../../../src/lib/core/progress/weeks';
import { changeWords } from '../../../src/lib/core/progress/link-change';

/** Practice day of an ISO date: the platform's own calendar. */
const dayOf = (date: string) => Date.parse(date) / 86_400_000;

describe('calendarTicks', () => {
  it('marks Mondays on a short span', () => {
    // 2026-10-05 is a Monday (calendar)
    const ticks = calendarTicks(dayOf('2026-10-01'), dayOf('2026-10-29'), 5);
    expect(ticks.map(({ label }) => label)).toEqual(['5 Oct', '12 Oct', '19 Oct', '26 Oct']);
    expect(new Date((ticks[0]?.day ?? 0) * 86_400_000).getUTCDay()).toBe(1);
  });

  it('marks first days of months, every second one when room is short', () => {
    const [from, to] = [dayOf('2025-09-05'), dayOf('2026-05-20')];
    const labels = (most: number) => calendarTicks(from, to, most).map(({ label }) => label);
    expect(labels(9)).toEqual(['Oct', 'Nov', 'Dec', 'Jan', 'Feb', 'Mar', 'Apr', 'May']);
    expect(labels(6)).toEqual(['Nov', 'Jan', 'Mar', 'May']);
  });

  it('names the year at January once months come twice', () => {
    const ticks = calendarTicks(dayOf('2025-08-10'), dayOf('2026-12-01'), 6);
    expect(ticks.map(({ label }) => label)).toEqual(['Oct', '2026', 'Apr', 'Jul', 'Oct']);
  });

  it('never gives more than fit, over any span up to 60 years', () => {
    for (let span = 0; span < 22_000; span += 37) {
      const ticks = calendarTicks(dayOf('2024-02-29'), dayOf('2024-02-29') + span, 4);
      expect(ticks.length).toBeLessThanOrEqual(4);
      if (span >= 14) expect(ticks.length).toBeGreaterThan(0);
    }
  });
});

describe('tempoTicks', () => {
  it('are round and few', () => {
    expect(tempoTicks(38, 122, 5)).toEqual([40, 60, 80, 100, 120]);
    expect(tempoTicks(52, 70, 5)).toEqual([55, 60, 65, 70]);
  });
});

it('writes dates short and whole', () => {
  expect(shortDate(dayOf('2026-02-09'))).toBe('9 Feb');
  expect(fullDate(dayOf('2026-12-31'))).toBe('31 December 2026');
});

describe('newestWeeks', () => {
  const week = (date: string, minutes: number) => ({
    ...{ monday: dayOf(date), date, minutes, passes: 3, clean: 2, cleanShare: 2 / 3 },
    minutesOf: NO_MINUTES,
  });

  it('fills the weeks of rest up to this one', () => {
    const shown = newestWeeks([week('2026-10-05', 30), week('2026-10-12', 20)], dayOf('2026-10-28'), 8);
    expect(shown.map(({ date, minutes }) => [date, minutes])).toEqual([
      ['2026-10-05', 30],
      ['2026-10-12', 20],
      ['2026-10-19', 0],
      ['2026-10-26', 0],
    ]);
    expect(shown.at(-1)?.cleanShare).toBeNull();
  });

  it('keeps to the count, and to nothing without practice', () => {
    const weeks = [week('2026-10-05', 30), week('2026-10-12', 20)];
    expect(newestWeeks(weeks, dayOf('2026-12-30'), 8).map(({ date }) => date)[0]).toBe('2026-11-09');
    expect(newestWeeks([], dayOf('2026-12-30'), 8)).toEqual([]);
  });
});

describe('changeWords', () => {
  const on = (...points: [number, number][]) => points.map(([day, tempo]) => ({ day, tempo }));

  it('says the change against two weeks ago', () => {
    expect(changeWords(on([0, 60], [10, 70], [23, 76]), 24)).toBe('+6 in two weeks');
    expect(changeWords(on([0, 60], [10, 70], [23, 66]), 24)).toBe('−4 in two weeks');
  });

  it('says since when a link is level', () => {
    expect(changeWords(on([0, 60], [10, 70], [30, 70.4], [44, 70]), 45)).toBe('level for five weeks');
    expect(changeWords(on([0, 70], [40, 70], [120, 70]), 121)).toBe('level for four months');
  });

  it('says what is new, and what has rested', () => {
    expect(changeWords(on([20, 60]), 20)).toBe('begun today');
    expect(changeWords(on([19, 60], [20, 64]), 20)).toBe('begun yesterday');
    expect(changeWords(on([15, 60], [20, 64]), 20)).toBe('begun five days ago');
    expect(changeWords(on([0, 60]), 44)).toBe('not played for six weeks');
    expect(changeWords([], 44)).toBe('');
  });
});
