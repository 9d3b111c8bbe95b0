import { inFigures, listed } from './figures';
import { spoken } from './spoken';

function at(line?: number, column?: number): string {
  if (line === undefined) return '';
  return column === undefined ? ` at line ${line}` : ` at line ${line}, column ${column}`;
}

const count = (number: number, word: string): string =>
  `${inFigures(number)} ${word}${number === 1 ? '' : 's'}`;

/** What a file says that is no sound backup, and what no backup holds yet. */
export const say = spoken('backupFile', {
  tooDeep: 'the file is nested too deeply to be a backup',
  notField: (name: string) => `${name} is not a field of a backup`,
  notOurs: (format: string) => `the file is not a Phrasewright backup: its format is not "${format}"`,
  otherKind: 'the file is not a Phrasewright backup: those end in .json.gz or .json',
  newer: (version: number, ours: number) =>
    `the backup is of version ${version}, and this app reads version ${ours}: update the app first`,
  notVersion: (value: string) => `${value} is not a version of the backup format`,
  checksum: 'the checksum does not fit: the file was changed, or lost a part, after it was written',
  counts: (value: string) => `${value} is not what the file holds`,

  empty: 'the file is empty',
  tooLong: (characters: number) => `the file is longer than ${characters} characters`,
  longLine: 'the file has a line that is too long',
  endsTooSoon: (line?: number, column?: number) => `the file ends too soon${at(line, column)}`,
  notJson: (line?: number, column?: number) => `the file is not JSON${at(line, column)}`,
  otherLayout: (line: number) => `the file is not laid out as a backup${at(line)}`,
  emptyLine: (line: number) => `line ${line} is empty`,
  otherLine: (line: number) => `line ${line} is not laid out as in a backup`,
  packedDamage: 'the packed file is damaged, or was cut short',
  notHandedOut: 'the device did not hand the file out: choose it again',
  changedSince: 'The file was changed after it had been read. Choose it again.',

  /** Of sittings and tunes, not both none. */
  unsaved: (sittings: number, tunes: number, hasBackup: boolean) => {
    const both = [
      ...(sittings > 0 ? [count(sittings, 'sitting')] : []),
      ...(tunes > 0 ? [count(tunes, 'tune')] : []),
    ];
    return `${listed(both)} ${hasBackup ? 'since the last backup' : 'in no backup yet'}`;
  },
  /** In the place of a title, in the log as a table. */
  goneTune: 'A tune no longer in the book',
});
