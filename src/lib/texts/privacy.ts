import { spoken } from './spoken';

/** What is stored and where, what is not done, and how to erase it all. */
export const say = spoken('privacy', {
  title: 'Privacy · Phrasewright',
  back: '‹ Settings',
  heading: 'Privacy',
  inShort:
    'Nothing that you play, write or choose leaves this device unless you save it to a file or hand it on.',

  stored: 'What is stored',
  storedBook: 'The book: your tunes, every sitting and pass, and your settings.',
  storedMiddle: 'What you were in the middle of: an unfinished measure or form, the choices of today.',
  storedProgram: 'The program itself, so that it opens without a network, and the version before it.',

  where: 'Where',
  whereBrowser:
    'In this browser, on this device, in two copies where the browser has room for them. Another browser, or another person’s account on this device, has a book of its own.',
  whereFiles:
    'Backups, sheets and lists that you saved are files of yours, in the folder that you chose or among your downloads. The app reads a file only when you open it here.',

  notDone: 'What is not done',
  noAccount: 'No account, no cookies, no counting of visitors, nothing from another site.',
  noMicrophone: 'The microphone and the camera are not used. A pedal is listened to only after you allow it.',
  network: 'The network is used to fetch the program, and to look for a newer version of it.',

  erase: 'How to erase it all',
  /** Before, in and after the link to the section of the settings. */
  eraseBefore: 'Go to ',
  eraseLink: 'Erase everything',
  eraseAfter:
    ' in Settings. It asks first, and offers a backup. The book is empty then, and every setting is as it came.',
  eraseProgram:
    'To take the program off as well, and every trace of it, clear this site’s data in the browser’s own settings. An installed app goes the way that other apps go on this device.',
  eraseFiles: 'Delete the files that you saved yourself: the app cannot reach them.',
});
