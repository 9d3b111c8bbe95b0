import { plural } from './figures';
import { spoken } from './spoken';

/** The practice sheet and what is done with it. */
export const say = spoken('sheetPage', {
  title: 'Practice sheet · Phrasewright',
  titleOf: (title: string) => `${title}, practice sheet · Phrasewright`,
  backToTunes: '‹ Tunes',
  noTune: 'No such tune in this book.',
  withoutTempos: 'The tab can be printed all the same, without the tempos of your log.',
  layer: 'Layer',
  print: 'Print it',
  paper: (pages: number) => `${pages === 1 ? 'one page' : `${pages} pages`}, A4 or US Letter`,
  whyPages: 'On one page its numbers would be too small to read.',

  // on paper
  toLearn: (measures: number, figures: number) =>
    `${measures} ${plural(measures, { one: 'measure', other: 'measures' })}, ${figures} to learn`,
  /** Runs on from `toLearn`. */
  inLayer: (layer: string) => ` in the layer “${layer}”`,
  /** Ends the sentence, where some measures wear marks. */
  sameMark: '. Same mark, same measure.',
  startAt: 'Start at',
  now: 'Now',
  goal: 'Goal',
  slowestLink: 'Slowest link',
  slowestLinkIs: (link: string) => `Slowest link: ${link}`,
  notPlayed: 'Not played yet',
  pickup: (music: string) => `Pickup, ${music}`,
  measure: (label: string, music: string) => `${label}, ${music}`,
  notes: 'Notes',
});
