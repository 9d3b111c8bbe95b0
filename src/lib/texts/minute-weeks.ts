import { listed, plural } from './figures';
import { numberWord } from './number-words';
import { spoken } from './spoken';

const drilled = {
  figure: 'measures',
  seam: 'seams',
  phrase: 'phrases',
  part: 'parts',
  tune: 'whole tunes',
};

interface Share {
  kind: keyof typeof drilled;
  minutes: number;
}

/** The minutes of each week and what they went to. */
export const say = spoken('minuteWeeks', {
  heading: 'Minutes a week',
  about: 'All tunes together, pauses left out.',
  drilled,
  /** `weeks`: one or more. */
  spent: (weeks: number, shares: readonly Share[]) => {
    const [first, ...others] = shares;
    if (first === undefined) return 'Nothing was played in these weeks.';
    const minutes = plural(first.minutes, { one: 'minute', other: 'minutes' });
    const when = weeks === 1 ? 'This week' : `In these ${numberWord(weeks)} weeks`;
    const rest = others.map((share) => `${share.minutes} on ${drilled[share.kind]}`);
    return `${when}: ${listed([`${first.minutes} ${minutes} on ${drilled[first.kind]}`, ...rest])}.`;
  },
  week: (day: string, minutes: number, shares: readonly Share[]) => {
    const of = listed(shares.map(({ kind, minutes: share }) => `${share} on ${drilled[kind]}`));
    return `Week of ${day}: ${minutes} minutes${shares.length > 0 ? `, ${of}` : ''}`;
  },
  /** What is in the table, for the ear. */
  table: 'minutes by week',
  caption: 'Minutes played by week, all tunes together',
  weekOf: 'Week of',
  minutes: 'Minutes',
  passes: 'Passes',
  whatOn: 'On what',
  shares: (shares: readonly Share[]) =>
    shares.map(({ kind, minutes }) => `${drilled[kind]} ${minutes}`).join(', '),
  none: 'Not enough yet: nothing has been played.',
});
