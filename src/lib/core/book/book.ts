import type { LogEntry, SealedSitting } from '../practice/records';
import type { Layer, Tune } from '../tune/tune';
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

/** What a look at every record of a book finds. */
export interface BookLook {
  /** The open sitting included. */
  counts: BookCounts;
  /** Ids of the sealed sittings that are no records any more, for the page's own connection to set aside. */
  damaged: string[];
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

/** The book with its records, and within its tunes the shelves and what layers change, in the order of their ids (settings: of their keys). */
export function sortBook({ tunes, sittings, settings }: Book): Book {
  return {
    tunes: tunes.map(sortWithin).sort(byId),
    sittings: [...sittings].sort(byId),
    settings: [...settings].sort((a, b) => compareText(a.key, b.key)),
  };
}

/** A tune with its shelves and what its layers change in the order of `sortBook`. An empty shelf is none, as in a merge. */
export function sortWithin(tune: Tune): Tune {
  const { shelf = [], layers, layerShelf = [], ...rest } = tune;
  return {
    ...rest,
    layers: layers.map(sortChanges),
    ...(shelf.length > 0 && { shelf: [...shelf].sort(byId) }),
    ...(layerShelf.length > 0 && { layerShelf: layerShelf.map(sortChanges) }),
  };
}

function sortChanges(layer: Layer): Layer {
  const { changes, changedAt } = layer;
  return { ...layer, changes: sortKeys(changes), ...(changedAt && { changedAt: sortKeys(changedAt) }) };
}

function sortKeys<T>(record: Readonly<Record<string, T>>): Record<string, T> {
  return Object.fromEntries(Object.entries(record).sort(([a], [b]) => compareText(a, b)));
}

export function byId(a: { id: string }, b: { id: string }): number {
  return compareText(a.id, b.id);
}

/** By UTF-16 code unit, the same on every machine. */
export function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
