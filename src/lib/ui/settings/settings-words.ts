import { sayUnsaved, type Unsaved } from '$lib/core/book/backup-due';
import type { BookCounts } from '$lib/core/book/book';
import type { SettingName, Settings } from '$lib/core/book/settings';
import { say } from '$lib/texts/settings-backup';

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
  return say.counts(tunes, sittings, passes);
}

/** What a merge brought, as a sentence. */
export function sayAdded(added: SaidCounts): string {
  const isNothing = added.tunes + added.sittings + added.passes === 0;
  return isNothing ? say.nothingAdded : say.added(sayCounts(added));
}

/** What a backup would save, as a sentence. */
export function sayKept(unsaved: Unsaved): string {
  const said = sayUnsaved(unsaved);
  if (said !== null) return `${said}.`;
  return unsaved.hasBackup ? say.allSaved : say.nothingOwn;
}

/** How saving a backup went; `leftOut` is what could not go in. */
export function saySaved(name: string, leftOut: readonly string[]): string {
  if (leftOut.length === 0) return say.saved(name);
  return say.savedWithout(name, leftOut.length, leftOut.slice(0, 3).join('; '));
}

/** `04:00`. */
export function sayHour(hour: number): string {
  return `${String(hour).padStart(2, '0')}:00`;
}
