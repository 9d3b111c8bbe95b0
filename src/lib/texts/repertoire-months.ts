import { counted, numberWord } from './number-words';
import { spoken } from './spoken';

const noneOr = (count: number): string => (count === 0 ? 'none' : numberWord(count));

/** How many tunes stood where, month by month. */
export const say = spoken('repertoireMonths', {
  heading: 'Repertoire by month',
  about: 'A tune that has faded counts as rusty, at goal or not.',
  atGoal: 'at goal tempo',
  growing: 'growing',
  rusty: 'rusty',
  now: (atGoal: number, growing: number, rusty: number) =>
    `Now ${counted(atGoal, 'tune')} at goal tempo, ${noneOr(growing)} growing, ${noneOr(rusty)} rusty.`,
  /** `month`: `September 2026`, before the one that runs. */
  atFirst: (month: string, atGoal: number, growing: number, rusty: number) =>
    `At the end of ${month} it was ${noneOr(atGoal)}, ${noneOr(growing)} and ${noneOr(rusty)}.`,
  chart: (from: string, to: string) =>
    from === to
      ? `Columns of tunes at goal tempo, growing and rusty: ${to}`
      : `Columns of tunes at goal tempo, growing and rusty at the end of each month, ${from} to ${to}`,
  /** What is in the table, for the ear. */
  table: 'tunes by month',
  caption: 'Tunes at the end of each month; those of this month as they stand today',
  month: 'Month',
  heads: { atGoal: 'At goal tempo', growing: 'Growing', rusty: 'Rusty' },
  none: 'Not enough yet: no tune has been played.',
  failed: 'The chart could not be loaded. Its figures are in the table below.',
});
