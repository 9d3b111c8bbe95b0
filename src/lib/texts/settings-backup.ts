import { inFigures, plural } from './figures';
import { spoken } from './spoken';

/** The book as it is counted, saved, merged, copied to a folder and erased. */
export const say = spoken('settingsBackup', {
  /** At the head of a sentence, or for a whole line. */
  counts: (tunes: number, sittings: number, passes: number) =>
    [
      `${inFigures(tunes)} ${plural(tunes, { one: 'tune', other: 'tunes' })}`,
      `${inFigures(sittings)} ${plural(sittings, { one: 'sitting', other: 'sittings' })}`,
      `${inFigures(passes)} ${plural(passes, { one: 'pass', other: 'passes' })}`,
    ].join(', '),
  /** Of `counts`, and how many of the tunes are deleted. */
  holds: (counts: string, deleted: number) =>
    deleted > 0 ? `${counts}; ${deleted} of the tunes deleted.` : `${counts}.`,
  counting: 'Counting …',

  allSaved: 'All of it is in the last backup.',
  nothingOwn: 'Nothing of your own is in it yet.',
  save: 'Save a backup',
  send: 'Send a backup …',
  sendReady: 'It is ready: send it',
  read: 'Read a backup',
  /** Of what is going on and how much of it is done, in percent. */
  going: (what: string, percent: number) => `${what}: ${percent} %`,
  stop: 'Stop',
  offer: (name: string) => `Backup ${name}`,
  savedOn: (name: string, day: string) => `${name}, saved ${day}`,
  askMerge: (counts: string) => `${counts}. Merge them into this book?`,
  mergeMeans: 'What both hold is kept once, and nothing that is here is lost.',
  merge: 'Merge them in',
  dismiss: 'Leave them out',
  unreadable: (name: string) => `${name} cannot be read as a backup.`,
  nothingChanged: 'Nothing was changed.',
  dismissUnreadable: 'Put it aside',
  saved: (name: string) => `Saved as ${name}, among your downloads. It reads back whole.`,
  /** `some`: the first few of the damaged records that are not in it. */
  savedWithout: (name: string, count: number, some: string) =>
    `Saved as ${name}, among your downloads. It reads back whole. ${
      count === 1 ? 'One damaged record is' : `${count} damaged records are`
    } not in it: ${some}.`,
  sent: 'The backup was handed on.',
  notSent: (name: string) => `This device does not hand on such files, so ${name} is among your downloads.`,
  added: (counts: string) => `New in this book: ${counts}.`,
  nothingAdded: 'No tune, sitting or pass in it was new. Where it held a later edit, that was taken.',
  stopped: 'Stopped. Nothing was changed.',

  spreadsheet: 'For a spreadsheet',
  spreadsheetMeans:
    'Every pass with its time, tune, passage, tempo and outcome, one a line, as comma-separated values. It cannot be read back: only a backup can.',
  saveLog: 'Save the log as CSV',

  copy: 'A copy that keeps itself up to date',
  copyImpossible:
    'This browser does not let an app write to a folder by itself. Save a backup, or send one, when the line above says that much would be lost.',
  copyMeans:
    'After each sitting the whole book is written to a folder that you pick, over the copy before. Pick one that is itself copied to another place.',
  pickFolder: 'Pick a folder …',
  copyKept: (folder: string, file: string) =>
    `After each sitting the book is written to ${folder}, as ${file}.`,
  copyWaits: (folder: string) => `The browser wants to hear from you before it writes to ${folder} again.`,
  allow: 'Let it write',
  pickAnother: 'Pick another folder …',
  forget: 'Keep no copy there',
  writingCopy: 'Writing the copy …',
  copyFailed: (folder: string | null, why: string) =>
    `The copy in ${folder ?? 'the folder'} was not written: ${why}`,
  copyFailedSafe:
    'The book itself is as it was, and so is the copy before. If the folder is gone, pick another.',

  eraseMeans: 'Empties the book on this device, and sets every setting back to how it came.',
  erase: 'Erase everything …',
  askErase: 'Erase the whole book?',
  askEraseOf: (counts: string) => `Erase the whole book? ${counts} go, and every setting.`,
  eraseForGood: 'This cannot be undone. Only a backup that you saved before can bring them back.',
  saveFirst: 'Save a backup first',
  eraseAll: 'Erase it all',
  keep: 'Keep it',
  erased: 'The book is empty, and every setting is as it came.',
});
