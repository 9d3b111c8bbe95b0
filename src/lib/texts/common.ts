import { spoken } from './spoken';

/** What is said in the same words on several screens. */
export const say = spoken('common', {
  bookUnchanged: 'Nothing in the book was changed.',
  marksInBook: 'Every marked pass is in the book.',
  tryAgain: 'Try again',
  /** Of a form. */
  takenUp: 'Taken up where you left it.',
  startAfresh: 'Start afresh',
  saveToFile: 'Save to a file',
  /** How fresh something is in memory, by the words that records have for it. */
  rusts: { fresh: 'fresh', 'beginning to fade': 'beginning to fade', 'likely faded': 'likely faded' },
});

export type RustId = keyof typeof say.rusts;
