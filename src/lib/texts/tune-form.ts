import { spoken } from './spoken';

/** Everything about a tune before it is kept. Measures by their labels: `A3`. */
export const say = spoken('tuneForm', {
  title: 'Title',
  form: 'Form',
  other: 'other',
  formInOrder: 'Form, in the order the parts are played',
  measures: 'Measures',
  measuresHow: 'in each part, played once',
  measuresIn: (part: string) => `Measures in part ${part}`,
  meter: 'Meter',
  goal: 'Goal',
  goalIn: 'beats a minute',
  toLearn: (measures: number, figures: number) =>
    `${measures} ${measures === 1 ? 'measure' : 'measures'}, ${figures} to learn.`,
  notInFours: (parts: readonly string[]) =>
    `${parts.join(' and ')} ${parts.length === 1 ? 'is' : 'are'} not in fours: a crooked tune.`,
  notSameBeats: 'Not every measure has the same beats: a crooked tune.',
  withTab: 'With its tab.',
  tabLater: 'The tab can come later.',
  more: 'Key, capo, pickup',
  key: 'Key',
  capo: 'Capo',
  spike: 'Fifth string up, frets',
  pickup: 'Pickup, beats',
  pasteTab: 'Paste typed tab',
  tabHow: 'Five lines of dashes and fret numbers, with bar lines. The spacing gives the rhythm.',
  typedTab: 'Typed tab',
  warningsMore: (count: number) => `And ${count} more.`,
  stillHere: 'What you typed is still here.',

  tuning: 'Tuning',
  /** A common tuning as players call it: `double C`. */
  tuningCalled: (called: string) => called,
  commonTunings: 'Common ones',
  anyTuning: 'Or any five, from the fifth string',
  unreadTuning: 'Write five notes from the fifth string to the first, such as gDGBD or f#DF#AD.',

  board: 'The board it makes',
  /**
   * @param mark the joiner's mark of a measure that is not the only one of its kind: `II`
   * @param beats with their noun, where they are not the meter's
   */
  tile: (measure: number, part: string, mark: string | null, beats: string | null) =>
    `Measure ${measure}, part ${part}${mark === null ? '' : `, mark ${mark}`}${beats === null ? '' : `, ${beats}`}`,
  touchSame: (label: string) => `Touch the measure that ${label} is the same as.`,
  again: (label: string, first: string) => `${label} is ${first} again.`,
  /** @param beats with their noun */
  content: (label: string, beats: string, strikes: number | null) =>
    `${label}: ${beats}${strikes === null ? '' : `, ${strikes} strikes`}.`,
  sameAs: 'Same as …',
  onItsOwn: 'On its own',
  beatsIn: (label: string) => `Beats in ${label}`,
  otherBeats: (one: string, other: string) => `${one} and ${other} have not the same number of beats.`,
  touchHow: 'Touch a measure to say that it is another one again, or how many beats it has.',
});
