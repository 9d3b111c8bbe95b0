import { counted } from './number-words';
import { spoken } from './spoken';

/** What became of a measure or a seam lately. */
export const say = spoken('linkChange', {
  restedWeeks: (weeks: number) => `not played for ${counted(weeks, 'week')}`,
  restedMonths: (months: number) => `not played for ${counted(months, 'month')}`,
  /** `beats`: not 0. */
  gained: (beats: number) => `${beats > 0 ? '+' : '−'}${Math.abs(beats)} in two weeks`,
  levelWeeks: (weeks: number) => `level for ${counted(weeks, 'week')}`,
  levelMonths: (months: number) => `level for ${counted(months, 'month')}`,
  begunToday: 'begun today',
  begunYesterday: 'begun yesterday',
  begun: (days: number) => `begun ${counted(days, 'day')} ago`,
});
