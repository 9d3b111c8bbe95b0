import { capital } from './figures';
import { counted, numberWord } from './number-words';
import { spoken } from './spoken';

/** The screen that tells how a tune and the repertoire come along. */
export const say = spoken('progress', {
  title: 'Progress · Phrasewright',
  heading: 'Progress',
  reading: 'Reading what was played.',
  empty: 'What you play shows here: tempo by practice day, toward the goal.',
  settledNow: 'settled tempo now',
  between: (low: number, high: number) => `likely between ${low} and ${high}`,
  settled: 'Settled tempo',
  notPlayed: (goal: number) =>
    `Nothing of this tune has been played yet. One practice day is enough to begin its line; the goal is ${goal}.`,
  toTune: 'To the tune',
  slowest: 'The slowest links',
  /** Between a link's name and its tempo, for the ear. */
  drillAt: '; drill it at',
  rusty: 'Going rusty',
  noneRusty: 'No tune is fading.',
  moreInTunes: (count: number) => `${count} more in Tunes`,
  learned: 'Learned so far',
  /** Measures settled of all, in so many tunes of all. */
  settledSoFar: (settled: number, measures: number, begun: number, tunes: number) =>
    `${capital(numberWord(settled))} of ${counted(measures, 'measure')} ${settled === 1 ? 'is' : 'are'} settled, in ${begun === tunes ? '' : `${numberWord(begun)} of `}${counted(tunes, 'tune')}.`,
  /** Before titles. */
  atGoal: 'At goal:',
  noneSettled:
    'Not enough yet: a measure is settled once it holds on two practice days with a night between.',
  report: 'A page for a teacher',
  tune: 'Tune',
  putAway: 'Put away',
  asTable: 'As a table',
  /** `tempo by day`, after `asTable` for the ear. */
  tableOf: (of: string) => `: ${of}`,
});
