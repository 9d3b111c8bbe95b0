import { inDate } from '../../texts/figures';
import { say } from '../../texts/time';
import { DAY_MS, type Moment } from './moment';
import { practiceDay, type PracticeDay } from './practice-day';

export interface CalendarDate {
  year: number;
  /** 0 to 11. */
  month: number;
  date: number;
}

export function calendarDate(day: PracticeDay): CalendarDate {
  const utc = new Date(day * DAY_MS);
  return { year: utc.getUTCFullYear(), month: utc.getUTCMonth(), date: utc.getUTCDate() };
}

function dayIn(day: PracticeDay, options: Intl.DateTimeFormatOptions): string {
  return inDate(day * DAY_MS, { ...options, timeZone: 'UTC' });
}

/** `Nov`. */
export const shortMonth = (day: PracticeDay): string => dayIn(day, { month: 'short' });

/** `5 Oct`. */
export const shortDate = (day: PracticeDay): string => dayIn(day, { day: 'numeric', month: 'short' });

/** `5 October 2026`. */
export const fullDate = (day: PracticeDay): string =>
  dayIn(day, { day: 'numeric', month: 'long', year: 'numeric' });

/** A day as it is said on another: `today`, `yesterday`, `Tuesday` within the last week, else `5 October`, or with its year. */
export function saidDay(day: PracticeDay, today: PracticeDay): string {
  const ago = today - day;
  if (ago === 0) return say.today;
  if (ago === 1) return say.yesterday;
  if (ago > 1 && ago < 7) return dayIn(day, { weekday: 'long' });
  if (calendarDate(day).year !== calendarDate(today).year) return fullDate(day);
  return dayIn(day, { day: 'numeric', month: 'long' });
}

/** How long ago a moment was, in practice days: `today`, `yesterday`, `five weeks ago`. A later moment is `today`. */
export function agoWords(then: Moment, now: Moment): string {
  const days = practiceDay(now) - practiceDay(then);
  if (days <= 0) return say.today;
  if (days === 1) return say.yesterday;
  if (days < 14) return say.daysAgo(days);
  if (days < 70) return say.weeksAgo(Math.round(days / 7));
  if (days < 700) return say.monthsAgo(Math.round(days / 30.44));
  return say.yearsAgo(Math.round(days / 365.25));
}
