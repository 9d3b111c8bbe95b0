import { DAY_MS } from '../time/moment';
import { weekOf, type PracticeDay } from '../time/practice-day';
import { calendarDate, shortDate, shortMonth } from '../time/date-words';

export interface CalendarTick {
  day: PracticeDay;
  label: string;
}

const WEEK_STEPS = [1, 2];
const MONTH_STEPS = [1, 2, 3, 6, 12, 24, 60, 120, 240, 600];
/** Spans of more days than this are read by the month, shorter ones by the week. */
const WEEKS_READ_TO = 63;

/**
 * Marks for an axis of practice days: Mondays (`5 Oct`) on a short span, else first days of months (`Nov`, and the
 * year at January once a name of a month could be met twice). As many as fit, `most` at the most (1 or more).
 */
export function calendarTicks(from: PracticeDay, to: PracticeDay, most: number): CalendarTick[] {
  const tries = [
    ...(to - from <= WEEKS_READ_TO ? WEEK_STEPS.map((step) => mondays(from, to, step)) : []),
    ...MONTH_STEPS.map((step) => monthStarts(from, to, step)),
  ];
  return tries.find(({ length }) => length > 0 && length <= most) ?? [];
}

function mondays(from: PracticeDay, to: PracticeDay, step: number): CalendarTick[] {
  const ticks: CalendarTick[] = [];
  for (let day = weekOf(from + 6); day <= to; day += 7 * step) ticks.push({ day, label: shortDate(day) });
  return ticks;
}

function monthStarts(from: PracticeDay, to: PracticeDay, step: number): CalendarTick[] {
  const ticks: CalendarTick[] = [];
  const first = calendarDate(from);
  const namesRepeat = to - from > 334;
  let count = Math.ceil((first.year * 12 + first.month) / step) * step;
  for (; ; count += step) {
    const [year, month] = [Math.floor(count / 12), count % 12];
    const day = Date.UTC(year, month, 1) / DAY_MS;
    if (day > to) return ticks;
    if (day < from) continue;
    ticks.push({ day, label: namesRepeat && month === 0 ? String(year) : shortMonth(day) });
  }
}

/** Round tempos between two ends, `most` at the most: the marks of the axis of tempos. */
export function tempoTicks(bottom: number, top: number, most: number): number[] {
  const step = [5, 10, 20, 25, 50, 100].find((size) => (top - bottom) / size <= most) ?? 200;
  const ticks: number[] = [];
  for (let tempo = Math.ceil(bottom / step) * step; tempo <= top; tempo += step) ticks.push(tempo);
  return ticks;
}
