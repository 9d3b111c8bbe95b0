import { counted } from './number-words';
import { spoken } from './spoken';

/** How days are said. */
export const say = spoken('time', {
  today: 'today',
  yesterday: 'yesterday',
  daysAgo: (count: number) => `${counted(count, 'day')} ago`,
  weeksAgo: (count: number) => `${counted(count, 'week')} ago`,
  monthsAgo: (count: number) => `${counted(count, 'month')} ago`,
  yearsAgo: (count: number) => `${counted(count, 'year')} ago`,
});
