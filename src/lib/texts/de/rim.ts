import type { say } from '../rim';

export const rim: typeof say = {
  screens: 'Bereiche',
  today: 'Heute',
  tunes: 'Stücke',
  progress: 'Fortschritt',
  settings: 'Einstellungen',
};
