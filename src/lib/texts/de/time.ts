import type { say } from '../time';
import { counted } from './number-words';

export const time: typeof say = {
  today: 'heute',
  yesterday: 'gestern',
  daysAgo: (count) => `vor ${counted(count, 'einem Tag', 'Tagen')}`,
  weeksAgo: (count) => `vor ${counted(count, 'einer Woche', 'Wochen')}`,
  monthsAgo: (count) => `vor ${counted(count, 'einem Monat', 'Monaten')}`,
  yearsAgo: (count) => `vor ${counted(count, 'einem Jahr', 'Jahren')}`,
};
