import { listed } from './figures';
import { spoken } from './spoken';

/** What the app says of itself, on whatever screen: the book that cannot be opened, what is out of date, the demo. */
export const say = spoken('app', {
  newerElsewhere:
    'A newer version of Phrasewright has opened the book in another tab. Reload this page to go on here.',
  notOpened: (reason: string) => `The book could not be opened: ${reason}`,
  contentsUnchanged: 'Nothing in it was changed.',
  stale: (reason: string) => `What is shown may be out of date: ${reason} Nothing in the book was changed.`,
  /** What waits to be saved, by kind. */
  waiting: {
    mark: (count: number) => `${count} ${count === 1 ? 'mark' : 'marks'}`,
    setting: (count: number) => `${count} ${count === 1 ? 'setting' : 'settings'}`,
    draft: (): string => 'what you wrote',
    note: (): string => 'your line of notes',
  },
  notSavedYet: (what: readonly string[], why: string) => `Not saved yet: ${listed(what)}. ${why}`,
  theyWait: 'It is saved by itself as soon as that is possible. Keep this page open.',

  noPractice: 'The practice worker could not be started',
  badPractice: 'The practice worker sent what cannot be read',
  practiceClosed: 'The practice desk was closed',

  noDemo: 'The demo tunes are not on this device yet. Open the app once with a network.',
  badDemo: (damage: string) => `The demo tunes could not be read: ${damage}`,

  saveRest: 'Save what can be read to a file',
});
