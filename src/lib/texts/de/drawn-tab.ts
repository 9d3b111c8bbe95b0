import type { say } from '../drawn-tab';

export const drawnTab: typeof say = {
  hidden: 'verdeckt',
  // short: they have the room that the English words need
  noTab: { wide: 'noch leer', narrow: 'leer' },
  melody: { wide: 'nur Melodie', narrow: 'Melodie' },
};
