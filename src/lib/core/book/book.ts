import type { LogEntry, SealedSitting } from '../practice/records';
import type { Tune } from '../tune/tune';
import type { SettingRow } from './settings';

/** Everything that one learner keeps. Drills and passes are inside their sittings. */
export interface Book {
  tunes: Tune[];
  sittings: SealedSitting[];
  settings: SettingRow[];
}

export interface BookCounts {
  tunes: number;
  sittings: number;
  drills: number;
  passes: number;
  settings: number;
}

export function emptyBook(): Book {
  return { tunes: [], sittings: [], settings: [] };
}

export function bookCounts({ tunes, sittings, settings }: Book): BookCounts {
  return {
    tunes: tunes.length,
    sittings: sittings.length,
    drills: sittings.reduce((sum, { drills }) => sum + drills.length, 0),
    passes: sittings.reduce((sum, { log }) => sum + countPasses(log), 0),
    settings: settings.length,
  };
}

export function countPasses(log: readonly LogEntry[]): number {
  return log.reduce((sum, { kind }) => sum + (kind === 'pass' ? 1 : 0), 0);
}

/** The book with its records, and the shelves of its tunes, in the order of their ids (settings: of their keys). */
export function sortBook({ tunes, sittings, settings }: Book): Book {
  return {
    tunes: tunes.map(sortShelf).sort(byId),
    sittings: [...sittings].sort(byId),
    settings: [...settings].sort((a, b) => compareText(a.key, b.key)),
  };
}

function sortShelf(tune: Tune): Tune {
  return tune.shelf ? { ...tune, shelf: [...tune.shelf].sort(byId) } : tune;
}

export function byId(a: { id: string }, b: { id: string }): number {
  return compareText(a.id, b.id);
}

/** By UTF-16 code unit, the same on every machine. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
