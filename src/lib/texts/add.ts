import { inFigures, plural } from './figures';
import { spoken } from './spoken';

/** A tune is added: by hand, by its title, or from notation. */
export const say = spoken('add', {
  pageTitle: 'Add a tune · Phrasewright',
  tunes: '‹ Tunes',
  heading: 'Add a tune',
  notArrived: 'What was shared did not arrive here. Open the file, or paste it.',
  notKept: (why: string) => `The tune was not kept: ${why}`,
  nothingAdded: 'Nothing was added to your book.',
  keep: 'Keep this tune',
  /** The small words beside the button, in two lines. */
  thenMeasure: ['then its', 'first measure'] as [string, string],
  backToPreview: 'Back to the preview',
  thenNothing: ['nothing is', 'added yet'] as [string, string],
  guessedEncoding: (encoding: string) =>
    `The text does not say how its letters are written; it was read as ${encoding}. Look at the title.`,
  leaveOut: 'Leave it out',
  chooseAgain: 'Choose again',
  add: (count: number) => (count === 1 ? 'Add to my book' : `Add ${count} tunes`),
  asTheyStand: ['as they', 'stand here'] as [string, string],

  added: 'Added',
  addedTunes: (count: number) =>
    plural(count, {
      one: 'This tune is in your book now.',
      other: `These ${count} tunes are in your book now.`,
    }),
  addAnother: 'Add another',

  fromNotation: 'From notation',
  openFile: 'Open a file',
  fileKinds: 'ABC, MusicXML, MIDI or tab as text. You look at it before it is added.',
  notationFile: 'Notation file',
  paste: 'Paste notation',
  pasteKinds: 'ABC, MusicXML, or five lines of dashes and fret numbers.',
  notationAsText: 'Notation as text',
  lookAtIt: 'Look at it',
  takeOne: 'Take one that was handed on',
  reading: 'Reading the notation.',
  stop: 'Stop',

  several: 'Several by their titles',
  severalKept:
    'Each is kept with the tuning, form, measures and goal that are chosen above. All of it can be changed tune by tune.',
  list: 'The list, one a line',
  taken: (titles: readonly string[]) => `In your book already, and left out: ${titles.join(', ')}.`,
  keepTitles: (count: number) =>
    count === 0 ? 'Keep them' : count === 1 ? 'Keep this one' : `Keep these ${count}`,

  untitled: 'Tune without a title',
  inThisSource: 'Tunes in this source',
  /** The second is set softer, behind the first. */
  find: 'Find a tune',
  among: (count: number) => `among ${inFigures(count)}`,
  noneFound: 'No tune has this in its title.',
  firstOf: (shown: number, found: number) =>
    `The first ${shown} of ${inFigures(found)}. Type part of a title to see fewer.`,
  found: (count: number) => `${inFigures(count)} ${count === 1 ? 'tune' : 'tunes'}.`,
  mostAtOnce: (most: number) => `${most} at once is the most; add these first.`,
  anotherSource: 'Another source',
  lookAt: (count: number) => `Look at ${count === 1 ? '1 tune' : `${count} tunes`}`,

  title: 'Title',
  titleTaken: 'A tune of this title is in your book already. This one is added beside it.',
  form: 'Form',
  key: 'Key',
  noKey: 'not said',
  meter: 'Meter',
  /** The second is set softer, behind the first. */
  goal: 'Goal',
  beatsAMinute: 'beats a minute',
  melody: 'Melody',
  voice: (number: number) => `Voice ${number}`,
  toLearn: (measures: number, toLearn: number) =>
    `${measures} ${measures === 1 ? 'measure' : 'measures'}, ${toLearn} to learn.`,
  melodyOnly: 'The melody, without its fingering.',
  measures: 'The measures',
  correct: 'Correct it first',

  places: (count: number) => `${count === 1 ? 'One place' : `${count} places`} to look at`,
  more: (count: number) => `${count} more`,
});
