import { DAY_MS } from '../time/moment';
import type { PracticeDay } from '../time/practice-day';

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
