import { countPasses, type Book } from '$lib/core/book/book';
import { fitFigures, mergeBooks } from '$lib/core/book/merge';
import { isSettingRow, type SettingRow } from '$lib/core/book/settings';
import type { Drill, LogEntry, SealedSitting } from '$lib/core/practice/records';
import type { Tune } from '$lib/core/tune/tune';
import type { BookDatabase } from './database';
import { addToOpen, readOpen } from './open-sitting';
import { isSealed, isTune } from './row-shapes';
import type { SecondCopy } from './second-copy';

export interface Added {
  tunes: number;
  sittings: number;
  passes: number;
}

/** What a merge changed, for the second copy; of settings all, when any were merged. */
export interface Merged {
  added: Added;
  tunes: Tune[];
  sittings: SealedSitting[];
  settings: SettingRow[];
  open: { sittingId: string; drills: readonly Drill[]; log: LogEntry[] } | null;
}

/**
 * Merges a checked book into the tables. A copy of the sitting that is open goes into the open rows. To be called in
 * a transaction over all tables.
 */
export async function mergeIntoTables(db: BookDatabase, incoming: Book): Promise<Merged> {
  const open = await readOpen(db);
  const ofOpen = incoming.sittings.find(({ id }) => id === open?.sitting.id);
  const book = { ...incoming, sittings: incoming.sittings.filter((sitting) => sitting !== ofOpen) };
  const mine = await readSame(db, book);
  const both = mergeBooks(mine, book);
  const known = new Map(
    [...mine.tunes, ...mine.sittings].map((record) => [record.id, JSON.stringify(record)] as const),
  );
  const isChanged = (record: Tune | SealedSitting): boolean =>
    known.get(record.id) !== JSON.stringify(record);
  const merged: Merged = {
    tunes: both.tunes.map(fitFigures).filter(isChanged),
    sittings: both.sittings.filter(isChanged),
    settings: [],
    open: null,
    added: {
      tunes: both.tunes.length - mine.tunes.length,
      sittings: both.sittings.length - mine.sittings.length,
      passes: passesOf(both) - passesOf(mine),
    },
  };
  await db.tunes.bulkPut(merged.tunes);
  await db.sittings.bulkPut(merged.sittings);
  await db.settings.bulkPut(both.settings);
  if (both.settings.length > 0) merged.settings = await db.settings.toArray();
  if (ofOpen) {
    const log = await addToOpen(db, ofOpen.drills, ofOpen.log);
    merged.added.passes += countPasses(log);
    merged.open = { sittingId: ofOpen.id, drills: ofOpen.drills, log };
  }
  return merged;
}

/** Writes what a merge changed into the second copy. */
export async function mirrorMerge(merged: Merged, copy: SecondCopy): Promise<void> {
  await copy.writeTunes(merged.tunes);
  await copy.appendSittings(merged.sittings);
  if (merged.settings.length > 0) await copy.writeSettings(merged.settings);
  if (!merged.open) return;
  for (const drill of merged.open.drills) await copy.noteDrill(drill);
  for (const entry of merged.open.log) await copy.noteEntry(merged.open.sittingId, entry);
}

/** The records of ours that a book has too. A damaged row gives way to the whole one. */
async function readSame(db: BookDatabase, book: Book): Promise<Book> {
  const [tunes, sittings, settings] = await Promise.all([
    db.tunes.bulkGet(book.tunes.map(({ id }) => id)),
    db.sittings.bulkGet(book.sittings.map(({ id }) => id)),
    db.settings.bulkGet(book.settings.map(({ key }) => key)),
  ]);
  return {
    tunes: tunes.filter(isTune),
    sittings: sittings.filter(isSealed),
    settings: settings.filter(isSettingRow),
  };
}

function passesOf({ sittings }: Book): number {
  return sittings.reduce((sum, { log }) => sum + countPasses(log), 0);
}
