import { start as german } from './de/start';
import { languageFor } from './spoken';

const english = {
  title: 'Phrasewright did not start',
  safe: 'Your book is as it was: it is kept apart from the program.',
  tryAgain: 'Try again',
  getNewest: 'Get the newest version',
  stepBack: 'Use the version before',
  noVersionBefore: 'The version before is not on this device any more.',
  moment: 'One moment …',
  /** What came of asking for the newest version. */
  newest: {
    none: 'There is no newer version yet, and the files here are whole.',
    'no network': 'The server cannot be reached. Connect to the network, then try again.',
    drill: 'A drill is open in another tab. End it there first.',
  },
};

/** What is said when the app does not start. */
export type StartTexts = typeof english;

/** The language of that. */
export const language = languageFor(navigator.languages);

/**
 * Said by a script of its own, before anything of the app is there and when none of it may be had. So both languages
 * are in that script, and its German is no part of the translation that `speakTo` fetches.
 */
export const say: StartTexts = language === 'de' ? german : english;
