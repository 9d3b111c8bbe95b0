import { capital } from './figures';
import { counted } from './number-words';
import { spoken } from './spoken';

/** The screen of the settings: its sections, and how what was done in them went. */
export const say = spoken('settings', {
  title: 'Settings · Phrasewright',
  heading: 'Settings',
  drill: 'In the drill',
  click: 'Click and string',
  look: 'The look, and the day',
  book: 'The book',
  kept: 'Where it is kept',
  backup: 'Backup',
  demo: 'The demo',
  deleted: 'Deleted tunes',
  keys: 'Keys and pedal',
  words: 'Words and privacy',
  wordsLink: 'What the words here mean',
  privacyLink: 'What is stored, where, and how to erase it',
  cautions: 'Hands and ears',
  erase: 'Erase everything',

  earlierIsSafe: 'Everything that was saved before is safe.',
  bookIsApart: 'The book has nothing to do with it.',
  notHandedIn: 'The file that was shared did not arrive here: choose it.',

  demoHolds: (tunes: number) =>
    `${capital(counted(tunes, 'demo tune'))}, with the practice of a made-up learner. Your own tunes and sittings stay when the demo goes.`,
  takeDemoOut: 'Take the demo out',
  demoIsOut: 'The demo is out. Your own tunes and sittings are as they were.',
  deletedOn: (day: string) => `deleted ${day}`,
  bringBack: 'Bring it back',
  bringBackTune: (title: string) => `Bring it back: ${title}`,
  isBack: (title: string) => `“${title}” is back, with all its passes.`,

  theme: 'Light or dark',
  themes: { system: 'as the device', light: 'light', dark: 'dark' },
  dayStart: 'Hour at which a practice day starts',
  dayFromMidnight: 'A practice day runs from midnight to midnight.',
  /** Of a time as a clock shows it: `04:00`. */
  dayFrom: (time: string) => `What you play before ${time} belongs to the day before.`,
});
