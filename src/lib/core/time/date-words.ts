import { DAY_MS } from './moment';
import type { PracticeDay } from './practice-day';

export const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const;

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

export function monthName(month: number): string {
  return MONTHS[month] ?? '';
}

/** `5 Oct`. */
export function shortDate(day: PracticeDay): string {
  const { month, date } = calendarDate(day);
  return `${date} ${monthName(month).slice(0, 3)}`;
}

/** `5 October 2026`. */
export function fullDate(day: PracticeDay): string {
  const { year, month, date } = calendarDate(day);
  return `${date} ${monthName(month)} ${year}`;
}

/** A day as it is said on another: `today`, `yesterday`, `Tuesday` within the last week, else `5 October`, or with its year. */
export function saidDay(day: PracticeDay, today: PracticeDay): string {
  const ago = today - day;
  if (ago === 0) return 'today';
  if (ago === 1) return 'yesterday';
  if (ago > 1 && ago < 7) return WEEKDAYS[new Date(day * DAY_MS).getUTCDay()] ?? '';
  if (calendarDate(day).year !== calendarDate(today).year) return fullDate(day);
  const { month, date } = calendarDate(day);
  return `${date} ${monthName(month)}`;
}
