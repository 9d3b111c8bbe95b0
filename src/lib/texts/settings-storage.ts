import { spoken } from './spoken';

/** Where the book is kept, and the damaged records that are set aside. */
export const say = spoken('settingsStorage', {
  where:
    'On this device only, in this browser, and nothing is sent anywhere. Clearing the browser’s site data erases it, so save a backup now and then and keep it somewhere else.',
  twoCopies: 'Two copies are kept, so that a browser that loses one mends it from the other.',
  promises: {
    given: 'The browser has promised to keep the book.',
    'not given': 'The browser has not promised to keep the book.',
    'cannot be asked': 'This browser cannot be asked to keep the book.',
  },
  promiseMeans: {
    given: 'It goes only when you clear the site’s data yourself.',
    'not given':
      'The browser may clear it when the device runs short of room, or when the app has not been opened for weeks. It may promise once the app is installed or has been in use for longer.',
    'cannot be asked': 'It may clear what has not been used for long. Keep backups.',
  },
  ask: 'Ask the browser to keep it',

  aside: 'Set aside',
  asideMeans: (count: number) =>
    `${count === 1 ? 'This record is' : 'These records are'} damaged and cannot be read. The rest of the book is as it was, and nothing writes over what is set aside.`,
  isBack: 'A whole one is back in the book.',
  isLost: 'No whole one was found.',
  removeMeans: 'Removed, it cannot be had again.',
  removeForGood: 'Remove it for good',
  leave: 'Leave it here',
  save: 'Save it to a file',
  remove: 'Remove …',
  /** What a button does, and with which record. */
  doneTo: (act: string, record: string) => `${act}: ${record}`,

  /** What a damaged record is, by the table that held it. */
  kinds: {
    tunes: 'A tune',
    sittings: 'A sitting',
    sitting: 'The sitting that was open',
    drills: 'A drill',
    passes: 'A mark of a pass',
    settings: 'A setting',
  },
  titled: (kind: string, title: string) => `${kind}, “${title}”`,
  ofDay: (kind: string, day: string) => `${kind} of ${day}`,
  known: (kind: string, id: string) => `${kind}, ${id}`,
});
