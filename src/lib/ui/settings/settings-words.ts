import { sayUnsaved, type Unsaved } from '$lib/core/book/backup-due';
import type { BookCounts } from '$lib/core/book/book';
import type { SettingName, Settings } from '$lib/core/book/settings';

/** What failed, and what is safe. */
export interface Failure {
  what: string;
  safe: string;
}

/** Chooses one setting. */
export type Choose = <Name extends SettingName>(key: Name, value: Settings[Name]) => void;

type SaidCounts = Pick<BookCounts, 'tunes' | 'sittings' | 'passes'>;

/** `3 tunes, 1 sitting, 2,310 passes`. */
export function sayCounts({ tunes, sittings, passes }: SaidCounts): string {
  return [many(tunes, 'tune'), many(sittings, 'sitting'), many(passes, 'pass')].join(', ');
}

/** What a merge brought, as a sentence. */
export function sayAdded(added: SaidCounts): string {
  const isNothing = added.tunes + added.sittings + added.passes === 0;
  if (isNothing) return 'No tune, sitting or pass in it was new. Where it held a later edit, that was taken.';
  return `New in this book: ${sayCounts(added)}.`;
}

/** What a backup would save, as a sentence. */
export function sayKept(unsaved: Unsaved): string {
  const said = sayUnsaved(unsaved);
  if (said !== null) return `${said}.`;
  return unsaved.hasBackup ? 'All of it is in the last backup.' : 'Nothing of your own is in it yet.';
}

/** How saving a backup went; `leftOut` is what could not go in. */
export function saySaved(name: string, leftOut: readonly string[]): string {
  const where = `Saved as ${name}, among your downloads. It reads back whole.`;
  if (leftOut.length === 0) return where;
  const count = leftOut.length === 1 ? 'One damaged record is' : `${leftOut.length} damaged records are`;
  return `${where} ${count} not in it: ${leftOut.slice(0, 3).join('; ')}.`;
}

/** `04:00`. */
export function sayHour(hour: number): string {
  return `${String(hour).padStart(2, '0')}:00`;
}

function many(count: number, word: string): string {
  const figure = count.toLocaleString('en-GB');
  if (count === 1) return `${figure} ${word}`;
  return `${figure} ${word}${word.endsWith('s') ? 'es' : 's'}`;
}
