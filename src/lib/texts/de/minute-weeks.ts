import { listed, plural } from '../figures';
import type { say } from '../minute-weeks';
import { numberWord } from './number-words';

const drilled: typeof say.drilled = {
  figure: 'Takte',
  seam: 'Übergänge',
  phrase: 'Phrasen',
  part: 'Teile',
  tune: 'ganze Stücke',
};

export const minuteWeeks: typeof say = {
  heading: 'Minuten je Woche',
  about: 'Alle Stücke zusammen, ohne Pausen.',
  drilled,
  spent: (weeks, shares) => {
    const [first, ...others] = shares;
    if (first === undefined) return 'In diesen Wochen wurde nichts gespielt.';
    const minutes = plural(first.minutes, { one: 'Minute', other: 'Minuten' });
    const when = weeks === 1 ? 'Diese Woche' : `In diesen ${numberWord(weeks)} Wochen`;
    const rest = others.map((share) => `${share.minutes} für ${drilled[share.kind]}`);
    return `${when}: ${listed([`${first.minutes} ${minutes} für ${drilled[first.kind]}`, ...rest])}.`;
  },
  week: (day, minutes, shares) => {
    const of = listed(shares.map(({ kind, minutes: share }) => `${share} für ${drilled[kind]}`));
    return `Woche ab ${day}: ${minutes} Minuten${shares.length > 0 ? `, ${of}` : ''}`;
  },
  table: 'Minuten nach Wochen',
  caption: 'Gespielte Minuten nach Wochen, alle Stücke zusammen',
  weekOf: 'Woche ab',
  minutes: 'Minuten',
  passes: 'Durchgänge',
  whatOn: 'Wofür',
  shares: (shares) => shares.map(({ kind, minutes }) => `${drilled[kind]} ${minutes}`).join(', '),
  none: 'Noch zu wenig: Es wurde noch nichts gespielt.',
};
