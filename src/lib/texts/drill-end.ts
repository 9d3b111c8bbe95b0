import { plural } from './figures';
import { spoken } from './spoken';

/** What a drill came to, and the ways on. */
export const say = spoken('drillEnd', {
  notSaved: (marks: number) =>
    `${marks} ${plural(marks, { one: 'mark is', other: 'marks are' })} not saved yet.`,
  theyWait: 'They wait here. Do not close this page.',
  nothingCounted: 'No pass was marked, so nothing was counted.',
  /** Between the number of clean passes and the number of all. */
  of: 'of',
  /** After the number of all. */
  cameOutClean: (fromMemory: number) => `came out clean, ${fromMemory} from memory.`,
  /** Before the tempo. */
  settledAt: 'Settled at about',
  /** After the tempo. */
  likely: (low: number, high: number) => `, likely between ${low} and ${high}.`,
  firstGuess: 'That is a first guess; another day will say more.',
  whereItWas: (tempo: number) => `Where it was: about ${tempo}.`,
  before: (tempo: number) => `It was about ${tempo} before.`,
  why: 'Why this tempo, and how it moved',
  note: 'A line of notes',
  noteFor: 'for the end of the sitting',
  stopIfItHurts: 'Stop if it hurts, tingles or goes numb. If it persists, see a licensed clinician.',
  next: 'Next',
  from: (tempo: number) => `from ${tempo}`,
  endSitting: 'End the sitting',
});
