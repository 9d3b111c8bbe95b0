import { describe, expect, it } from 'vitest';
import { practiceReport, reportBegins } from '../../../src/lib/core/progress/practice-report';
import type { TuneProgress } from '../../../src/lib/core/progress/tune-progress';
import type { TuneSummary } from '../../../src/lib/core/progress/tune-summary';
import { NO_MINUTES, type Week } from '../../../src/lib/core/progress/weeks';
import { practiceDayDate, weekOf } from '../../../src/lib/core/time/practice-day';

/** Saturday 28 November 2026, in days since 1970. */
const TODAY = Date.UTC(2026, 10, 28) / 86_400_000;
const MONDAY = weekOf(TODAY);
const week = (monday: number, minutes: number, passes = 10): Week => ({
  ...{
    monday,
    date: practiceDayDate(monday),
    minutes,
    passes,
    clean: passes,
    cleanShare: 1,
    minutesOf: NO_MINUTES,
  },
});
const settled = (tempo: number) => ({ tempo, low: tempo - 5, high: tempo + 5 });

function tune(title: string, days: [day: number, tempo: number][], weeks: Week[]) {
  const now = days.at(-1)?.[1] ?? null;
  const progress = {
    ...{ tuneId: title, title, goal: 112, settled: now === null ? null : settled(now), weeks },
    days: days.map(([day, tempo]) => ({ day, ...settled(tempo), date: '', key: '', name: '' })),
    slowest: now === null ? [] : [{ key: '', name: 'Measure 6, part B', points: [] }],
  } as unknown as TuneProgress;
  const summary = { tuneId: title, title, tuning: 'gDGBD', state: 'Growing' } as TuneSummary;
  return { summary, progress };
}

describe('practiceReport', () => {
  it('begins on a Monday, this week counted', () => {
    expect(practiceDayDate(reportBegins(TODAY, 1))).toBe('2026-11-23');
    expect(practiceDayDate(reportBegins(TODAY, 4))).toBe('2026-11-02');
  });

  it('tells of the weeks and of the tunes played in them, the most practised first, then and now', () => {
    const old = MONDAY - 28;
    const tunes = [
      tune('Tin Lantern', [[old, 70]], [week(old, 50)]),
      tune('Sandy Boys', [[MONDAY + 1, 84]], [week(MONDAY, 10)]),
      tune(
        'Old Joe Clark',
        [
          [old, 90],
          [MONDAY, 96],
        ],
        [week(old, 40), week(MONDAY - 7, 20, 30)],
      ),
    ];
    const all = [week(old, 90), week(MONDAY - 7, 20, 30), week(MONDAY, 10)];
    const report = practiceReport(tunes, all, TODAY, 2);
    expect(report).toMatchObject({ from: MONDAY - 7, to: TODAY, minutes: 30, passes: 40 });
    expect(report.weeks.map(({ minutes }) => minutes)).toEqual([20, 10]);
    const line = { tuning: 'gDGBD', state: 'Growing', goal: 112, slowest: 'Measure 6, part B' };
    expect(report.tunes).toEqual([
      {
        tuneId: 'Old Joe Clark',
        title: 'Old Joe Clark',
        ...line,
        before: 90,
        now: 96,
        minutes: 20,
        passes: 30,
      },
      { tuneId: 'Sandy Boys', title: 'Sandy Boys', ...line, before: null, now: 84, minutes: 10, passes: 10 },
    ]);
  });

  it('of an empty log is empty', () => {
    expect(practiceReport([], [], TODAY, 4)).toMatchObject({ weeks: [], tunes: [], minutes: 0, passes: 0 });
  });
});
