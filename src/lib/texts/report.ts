import { spoken } from './spoken';

/** Some weeks of practice on a page for a teacher. */
export const say = spoken('report', {
  title: 'For a teacher · Phrasewright',
  back: '‹ Progress',
  about:
    'A page for a teacher, on paper or as a PDF. It goes nowhere by itself, and your notes are not on it.',
  yourName: 'Your name, if it is to stand there',
  weeks: 'Weeks',
  weeksLong: (count: number) => `${count} weeks`,
  print: 'Print it',
  /** On two lines, beside `print`. */
  orSave: ['or save it', 'as a PDF'] as readonly [string, string],
  reading: 'Reading what was played.',
  practice: 'Practice',
  practiceOf: (name: string) => `Practice of ${name}`,
  sum: (from: string, to: string, minutes: number, passes: number) =>
    `${from} to ${to}: ${minutes} minutes, ${passes} ${passes === 1 ? 'pass' : 'passes'}.`,
  tunes: 'Tunes',
  noTune: 'No tune was played in these weeks.',
  tempos: 'Tempo in beats a minute, of the slowest link: the tempo at which it comes out clean.',
  atFirst: 'Then',
  now: 'Now',
  goal: 'Goal',
  minutes: 'Minutes',
  passes: 'Passes',
  clean: 'Clean',
  from: 'From',
  /** `slowest`: the slowest link, or `null`. */
  tune: (tuning: string, state: string, slowest: string | null) =>
    `${tuning} · ${state}${slowest === null ? '' : ` · slowest: ${slowest}`}`,
  percent: (share: number) => `${share} %`,
});
