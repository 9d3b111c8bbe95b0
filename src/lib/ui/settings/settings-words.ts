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

/** `04:00`. */
export function sayHour(hour: number): string {
  return `${String(hour).padStart(2, '0')}:00`;
}

function many(count: number, word: string): string {
  const figure = count.toLocaleString('en-GB');
  if (count === 1) return `${figure} ${word}`;
  return `${figure} ${word}${word.endsWith('s') ? 'es' : 's'}`;
}
