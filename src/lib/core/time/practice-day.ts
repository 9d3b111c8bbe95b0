import { DAY_MS, HOUR_MS, MINUTE_MS, type Moment } from './moment';

/**
 * A practice day as the number of days since 1970-01-01 of its local calendar date. Days are numbers so that
 * gaps are subtractions and daylight saving cannot stretch one.
 */
export type PracticeDay = number;

/** The local hour at which a new practice day begins, unless the learner sets another (DESIGN.md section 4). */
export const DAY_STARTS_AT_HOUR = 4;

/** The practice day that a moment belongs to: a pass at 01:30 still belongs to the evening before. */
export function practiceDay(moment: Moment, startsAtHour = DAY_STARTS_AT_HOUR): PracticeDay {
  const localMs = moment.at + moment.offsetMin * MINUTE_MS;
  return Math.floor((localMs - startsAtHour * HOUR_MS) / DAY_MS);
}

/** The calendar date of a practice day, `YYYY-MM-DD`. */
export function practiceDayDate(day: PracticeDay): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

/** The Monday that begins the week of a practice day, as a practice day (1970-01-01 was a Thursday). */
export function weekOf(day: PracticeDay): PracticeDay {
  return day - ((((day + 3) % 7) + 7) % 7);
}
