import { plural } from '../figures';
import type { say } from '../tunes-page';

export const tunesPage: typeof say = {
  page: 'Stücke · Phrasewright',
  heading: 'Stücke',
  count: (tunes) => plural(tunes, { one: '1 Stück', other: `${tunes} Stücke` }),
  none: 'Keins deiner Stücke passt dazu.',
  capo: (fret) => `Kapodaster ${fret}`,
  goal: (tempo) => `Ziel ${tempo}`,
  add: 'Stück hinzufügen',
  addFirst: 'Titel, Stimmung,',
  addThen: 'Form, Takte',
  putAway: 'Weggelegt',
  takeOut: 'Hervorholen',

  findTunes: 'Stücke suchen',
  find: 'Suchen',
  findWords: 'Nach Wörtern im Titel suchen',
  tuning: 'Stimmung',
  key: 'Tonart',
  stand: 'Stand',
  any: 'alle',
  stands: {
    'at goal': 'am Ziel: reif zum Vorspielen',
    growing: 'im Wachsen',
    rusty: 'eingerostet',
    'not begun': 'nicht begonnen',
  },
  byTuning: 'Nach Stimmung, für eine Session',
  found: (found, all) => `${found} von ${all}`,
  showAll: 'Alle zeigen',
};
