import { describe, expect, it } from 'vitest';
import { HOUR_MS, type Moment } from '../../../src/lib/core/time/moment';
import { practiceDay, practiceDayDate } from '../../../src/lib/core/time/practice-day';
import { momentAfter, momentWithin } from '../../../src/lib/core/time/running-moment';

const START = Date.UTC(2026, 9, 24, 23, 30);
const at = (ms: number, offsetMin = 0): Moment => ({ at: START + ms, offsetMin });

describe('the moment to write behind another', () => {
  it('is now, where the clock runs on, stands, or was set forward', () => {
    expect(momentAfter(null, at(5))).toEqual(at(5));
    for (const now of [at(0), at(1), at(100 * HOUR_MS)]) expect(momentAfter(at(0), now)).toEqual(now);
  });

  it('is the one before, under the offset of now, where the clock was set back a little', () => {
    expect(momentAfter(at(0, 60), at(-HOUR_MS, 0))).toEqual(at(0, 0));
    expect(momentAfter(at(0), at(-3 * HOUR_MS))).toEqual(at(0));
  });

  it('is now, where it was set back by more', () => {
    expect(momentAfter(at(0), at(-3 * HOUR_MS - 1))).toEqual(at(-3 * HOUR_MS - 1));
  });

  it('is held within what a record may say', () => {
    expect(momentWithin({ at: -5, offsetMin: 60 }, 0, 10)).toEqual({ at: 0, offsetMin: 60 });
    expect(momentWithin({ at: 11, offsetMin: 60 }, 0, 10)).toEqual({ at: 10, offsetMin: 60 });
  });
});

describe('a practice day under a clock that is set', () => {
  it('set back an hour by the end of summer time stays in its practice day', () => {
    // British summer time ended on 25 October 2026 at 01:00 UTC (IANA time zone database; from memory)
    const before = { at: Date.UTC(2026, 9, 25, 0, 50), offsetMin: 60 };
    const after = { at: Date.UTC(2026, 9, 25, 1, 10), offsetMin: 0 };
    expect(momentAfter(before, after)).toEqual(after);
    expect([before, after].map((moment) => practiceDayDate(practiceDay(moment)))).toEqual([
      '2026-10-24',
      '2026-10-24',
    ]);
  });

  it('carried over the date line has the day that the place has, in the order of playing', () => {
    // Auckland is at UTC+13 in November, Honolulu at UTC-10 (IANA time zone database; from memory)
    const auckland = { at: Date.UTC(2026, 10, 26, 8), offsetMin: 780 };
    const honolulu = { at: Date.UTC(2026, 10, 26, 17), offsetMin: -600 };
    const behind = momentAfter(auckland, honolulu);
    expect(behind).toEqual(honolulu);
    expect([auckland, behind].map((moment) => practiceDayDate(practiceDay(moment)))).toEqual([
      '2026-11-26',
      '2026-11-26',
    ]);
    const later = { at: Date.UTC(2026, 10, 26, 20), offsetMin: -600 };
    expect(practiceDayDate(practiceDay({ ...auckland, at: later.at }))).toBe('2026-11-27');
    expect(practiceDayDate(practiceDay(momentAfter(behind, later)))).toBe('2026-11-26');
  });
});
