import { spoken } from './spoken';

/** The repertoire, and what of it is shown. */
export const say = spoken('tunesPage', {
  page: 'Tunes · Phrasewright',
  heading: 'Tunes',
  count: (tunes: number) => `${tunes} ${tunes === 1 ? 'tune' : 'tunes'}`,
  none: 'No tune of yours is like that.',
  capo: (fret: number) => `capo ${fret}`,
  goal: (tempo: number) => `goal ${tempo}`,
  add: 'Add a tune',
  /** Small, in two lines. */
  addFirst: 'title, tuning,',
  addThen: 'form, measures',
  putAway: 'Put away',
  takeOut: 'Take out',

  findTunes: 'Find tunes',
  find: 'Find',
  findWords: 'Find by words of the title',
  tuning: 'Tuning',
  key: 'Key',
  stand: 'Standing',
  any: 'any',
  stands: {
    'at goal': 'at goal: can be played out',
    growing: 'growing',
    rusty: 'rusty',
    'not begun': 'not begun',
  },
  byTuning: 'By tuning, for a jam',
  found: (found: number, all: number) => `${found} of ${all}`,
  showAll: 'Show all',
});
