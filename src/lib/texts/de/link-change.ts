import type { say } from '../link-change';
import { counted } from './number-words';

const weeksLong = (weeks: number): string => counted(weeks, 'einer Woche', 'Wochen');
const monthsLong = (months: number): string => counted(months, 'einem Monat', 'Monaten');

export const linkChange: typeof say = {
  restedWeeks: (weeks) => `seit ${weeksLong(weeks)} nicht gespielt`,
  restedMonths: (months) => `seit ${monthsLong(months)} nicht gespielt`,
  gained: (beats) => `${beats > 0 ? '+' : '−'}${Math.abs(beats)} in zwei Wochen`,
  levelWeeks: (weeks) => `seit ${weeksLong(weeks)} gleich`,
  levelMonths: (months) => `seit ${monthsLong(months)} gleich`,
  begunToday: 'heute begonnen',
  begunYesterday: 'gestern begonnen',
  begun: (days) => `vor ${counted(days, 'einem Tag', 'Tagen')} begonnen`,
};
