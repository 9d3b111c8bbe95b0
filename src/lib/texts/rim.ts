import { spoken } from './spoken';

/** The way between the screens. */
export const say = spoken('rim', {
  screens: 'Screens',
  today: 'Today',
  tunes: 'Tunes',
  progress: 'Progress',
  settings: 'Settings',
});
