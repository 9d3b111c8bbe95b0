import type { say } from '../clean-weeks';

export const cleanWeeks: typeof say = {
  heading: 'Saubere Durchgänge von 20',
  line: (line, all) => `Die Linie steht bei ${line} von ${all}: gefestigt. Darüber steigern.`,
  week: (day, share, all) => `Woche ab ${day}: ${share} von ${all} sauber`,
  weekOfRest: (day) => `Woche ab ${day}: keine Durchgänge`,
  table: 'saubere Durchgänge nach Wochen',
  caption: 'Saubere Durchgänge dieses Stücks nach Wochen',
  weekOf: 'Woche ab',
  passes: 'Durchgänge',
  clean: 'Sauber',
  inAll: (all) => `Von ${all}`,
  none: 'Noch zu wenig: Es wurde noch kein Durchgang dieses Stücks markiert.',
};
