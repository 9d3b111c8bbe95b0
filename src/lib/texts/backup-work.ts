import { spoken } from './spoken';

/** A backup while it is written or read. */
export const say = spoken('backupWork', {
  begins: 'Beginning',
  stages: {
    writing: 'Writing',
    'reading back': 'Reading it back',
    reading: 'Reading',
    merging: 'Merging',
    copying: 'Bringing the second copy up to date',
  },
  notWhole: (faults: string) => `The backup was written, but it does not read back whole: ${faults}.`,
  folderGone: 'The folder is not there any more. Pick it again, or another one.',
  folderRefused: 'The browser may not write there any more. Pick the folder again.',
  folderFull: 'There is no room left where the folder is.',
  fileInUse: 'Something else has the file open.',
  noWorker: 'The backup worker could not be started',
});
