import { calendarDate, shortDate } from '$lib/core/time/date-words';
import type { Week } from '$lib/core/progress/weeks';

/** Captions under a row of weeks: `5 Oct`, `12`, `19`, the month only where it is new. */
export function weekLabels(weeks: readonly Pick<Week, 'monday'>[]): string[] {
  return weeks.map(({ monday }, index) => {
    const before = weeks[index - 1];
    const { month, date } = calendarDate(monday);
    const isNew = !before || calendarDate(before.monday).month !== month;
    return isNew ? shortDate(monday) : String(date);
  });
}
