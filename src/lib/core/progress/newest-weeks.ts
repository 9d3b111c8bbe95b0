import { practiceDayDate, weekOf, type PracticeDay } from '../time/practice-day';
import { NO_MINUTES, type Week } from './weeks';

/**
 * The weeks up to this one, `count` at the most, oldest first: weeks of rest since the last pass included, weeks
 * before the first pass not. `weeks`: as `WeekTally` gives them.
 */
export function newestWeeks(weeks: readonly Week[], today: PracticeDay, count: number): Week[] {
  const [first, last] = [weeks[0], weeks.at(-1)];
  if (!first || !last) return [];
  const byMonday = new Map(weeks.map((week) => [week.monday, week]));
  const newest = Math.max(weekOf(today), last.monday);
  const shown = Math.min(count, (newest - first.monday) / 7 + 1);
  return Array.from({ length: shown }, (_, index) => {
    const monday = newest - 7 * (shown - 1 - index);
    return byMonday.get(monday) ?? restWeek(monday);
  });
}

function restWeek(monday: PracticeDay): Week {
  const date = practiceDayDate(monday);
  return { monday, date, minutes: 0, minutesOf: NO_MINUTES, passes: 0, clean: 0, cleanShare: null };
}
