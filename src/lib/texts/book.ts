import { listed } from './figures';
import { spoken } from './spoken';

const counted = (number: number, one: string, many = `${one}s`): string[] =>
  number <= 0 ? [] : [`${number} ${number === 1 ? one : many}`];

/** How the book is kept: what cannot be written or opened, and what was put back. */
export const say = spoken('book', {
  savedIsSafe: 'Everything that was saved before is safe.',
  unchanged: 'Nothing was changed.',
  untouched: 'The book was not touched.',

  full: 'There is no room left on this device, so this was not saved. Free some space and try again.',
  takenOver: 'Another tab has taken over the book, so this was not saved. Reload this page.',
  refused:
    'This browser does not let Phrasewright keep its book: the window may be private, storage switched off for this site, or the storage damaged. Allow storage or use an ordinary window, and restart the browser if that does not help.',
  failed: (reason: string) =>
    `The browser could not read or write the book (${reason}). Try again; if that does not help, restart the browser.`,
  newer: 'This book was last opened by a newer version of Phrasewright. Reload the page to get that version.',
  olderTab:
    'Another tab holds an older version of the book open. Close the other tabs of Phrasewright, then reload.',
  closedElsewhere: 'The sitting was closed, perhaps in another tab, so this was not saved. Begin a new one.',
  silentBrowser: 'The browser opens no database, and does not say why.',
  noReason: 'The browser does not say why it failed',

  /** What was not done; what is wrong stands after it and a colon. */
  notDone: {
    tune: 'The tune was not saved',
    setting: 'The setting was not saved',
    sitting: 'The sitting was not begun',
    drill: 'The drill was not begun',
    mark: 'The mark was not saved',
    newMark: 'The mark was not changed',
    change: 'The change was not saved',
    book: 'The book was not taken in',
  },
  wrong: {
    tune: 'the book does not hold it',
    sitting: 'it is not a sitting',
    drill: 'it is not a drill',
    mark: 'it is not an entry of the log',
    newMark: 'its pass is not in this sitting',
    change: 'it makes no sitting',
  },
  wrongSetting: (name: string) => `${name} cannot be that`,

  oneCopy: 'This browser keeps one copy of the book only. Make a backup now and then.',
  copyFailed: (reason: string) =>
    `The second copy of the book cannot be written (${reason}). The first one is kept; make a backup soon.`,
  /** Of what the second copy put back, not all none. */
  recovered: (tunes: number, sittings: number, passes: number) => {
    const found = [
      ...counted(tunes, 'tune'),
      ...counted(sittings, 'sitting'),
      ...counted(passes, 'pass', 'passes'),
    ];
    return `The browser had lost part of the book. Its second copy put back ${listed(found)}.`;
  },
  /** Of damaged records, at least one, and of those that the second copy had whole. */
  setAside: (added: number, restored: number) => {
    const what =
      added === 1
        ? 'A record of the book was damaged and is'
        : `${added} records of the book were damaged and are`;
    const all =
      restored >= added ? ' The second copy had it whole.' : ' The second copy had some of it whole.';
    return `${what} set aside; the rest is as it was.${restored === 0 ? '' : all} Settings has the list.`;
  },
});
