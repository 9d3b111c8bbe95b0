import { countPasses, type Book } from '$lib/core/book/book';
import { isDemo } from '$lib/core/book/demo';
import { mergeBooks } from '$lib/core/book/merge';
import { checkBook } from '$lib/core/book/schema';
import { isSettingRow } from '$lib/core/book/settings';
import type { Drill, LogEntry, SealedSitting } from '$lib/core/practice/records';
import type { Tune } from '$lib/core/tune/tune';
import { lookBeforeMerge, noteMerged } from './backup-notes';
import type { BookDatabase } from './database';
import { addToOpen, readOpen } from './open-sitting';
import { isSealed, isTune } from './row-shapes';
import { addLine, type MonthLines, type SecondCopy } from './second-copy';
import { damagedTrouble } from './sentences';
import { damagedAmong, keepAside } from './set-aside';
import { inPlainWords } from './trouble';
import type { TwoCopies } from './two-copies';

export interface Added {
  tunes: number;
  sittings: number;
  passes: number;
}

/** What a merge changed, for the second copy: ids, for the records may be more than the memory should hold. */
interface Merged {
  added: Added;
  tuneIds: string[];
  sittingIds: string[];
  hasSettings: boolean;
  /** Of what was here before, that which the records have just as it is. */
  inFile: { sittings: number; tuneIds: Set<string> };
  open: { sittingId: string; drills: readonly Drill[]; log: LogEntry[] } | null;
}

/** The records of a merge: books to be taken one after the other, without waiting, and from the start each time. */
export type BookPieces = () => Iterable<Book>;

export interface MergeHow {
  /** The records are a backup that was made at this instant. */
  backupOf?: number;
  /** Hears how many of the changed sittings are in the second copy. */
  onCopied?: (done: number, all: number) => void;
}

/** A book from the outside as one piece. Throws a StoreTrouble when any record is not sound. */
export function checkedPieces(book: Book): BookPieces {
  const checked = checkBook(book);
  if (!checked.ok) throw damagedTrouble('book', checked.damage);
  return () => [checked.value];
}

const MERGE_TABLES = ['tunes', 'sittings', 'settings'] as const;
const OPEN_TABLES = ['sitting', 'drills', 'passes'] as const;

/** The book holds a copy of the sitting that is open. */
class HoldsOpenSitting extends Error {
  override readonly name = 'HoldsOpenSitting';
}

/**
 * Merges checked records in, whole or not at all, and counts what was new. To be called under the book's lock.
 */
export async function mergePieces(
  copies: TwoCopies,
  pieces: BookPieces,
  { backupOf, onCopied = () => undefined }: MergeHow,
): Promise<Added> {
  const { db } = copies;
  const mirror = (merged: Merged, copy: SecondCopy): Promise<void> => mirrorMerge(db, merged, copy, onCopied);
  const openId = (await inPlainWords(() => db.sitting.get('open')))?.sitting.id ?? null;
  try {
    // without the rows of the open sitting, so that marks go on being written meanwhile
    const work = (): Promise<Merged> => mergeNoted(db, pieces, openId, false, backupOf);
    return (await copies.changeUnderLock(MERGE_TABLES, work, mirror)).added;
  } catch (error) {
    if (!(error instanceof HoldsOpenSitting)) throw error;
    const work = (): Promise<Merged> => mergeNoted(db, pieces, openId, true, backupOf);
    return (await copies.changeUnderLock([...MERGE_TABLES, ...OPEN_TABLES], work, mirror)).added;
  }
}

async function mergeNoted(
  db: BookDatabase,
  pieces: BookPieces,
  openId: string | null,
  hasOpenTables: boolean,
  backupOf: number | undefined,
): Promise<Merged> {
  if (backupOf === undefined) return mergeIntoTables(db, pieces, openId, hasOpenTables);
  const before = await lookBeforeMerge(db);
  const merged = await mergeIntoTables(db, pieces, openId, hasOpenTables);
  await noteMerged(db, before, { exportedAt: backupOf, ...merged.inFile });
  return merged;
}

/**
 * Merges piece by piece in the caller's transaction, which `pieces` must not let go of: it may not wait for anything. When
 * it throws, the transaction undoes what was done.
 */
async function mergeIntoTables(
  db: BookDatabase,
  pieces: BookPieces,
  openId: string | null,
  hasOpenTables: boolean,
): Promise<Merged> {
  const merged: Merged = {
    added: { tunes: 0, sittings: 0, passes: 0 },
    ...{ tuneIds: [], sittingIds: [], hasSettings: false, open: null },
    inFile: { sittings: 0, tuneIds: new Set() },
  };
  for (const piece of pieces()) {
    const ofOpen = piece.sittings.find(({ id }) => id === openId);
    if (ofOpen && !hasOpenTables) throw new HoldsOpenSitting();
    // it may have been closed since, and is then merged as any other
    const open = ofOpen ? await readOpen(db) : null;
    if (ofOpen && open) await mergeOpen(db, ofOpen, merged);
    await mergePiece(db, open ? without(piece, ofOpen) : piece, merged);
  }
  return merged;
}

function without(piece: Book, ofOpen: SealedSitting | undefined): Book {
  return { ...piece, sittings: piece.sittings.filter((sitting) => sitting !== ofOpen) };
}

async function mergePiece(db: BookDatabase, piece: Book, merged: Merged): Promise<void> {
  const mine = await readSame(db, piece);
  const both = mergeBooks(mine, piece);
  const known = new Map<string, Tune | SealedSitting>(
    [...mine.tunes, ...mine.sittings].map((record) => [record.id, record]),
  );
  const isChanged = (record: Tune | SealedSitting): boolean => {
    const old = known.get(record.id);
    return !old || JSON.stringify(old) !== JSON.stringify(record);
  };
  const tunes = both.tunes.filter(isChanged);
  const sittings = both.sittings.filter(isChanged);
  await db.tunes.bulkPut(tunes);
  await db.sittings.bulkPut(sittings);
  await db.settings.bulkPut(both.settings);
  for (const { id } of tunes) merged.tuneIds.push(id);
  for (const { id } of sittings) merged.sittingIds.push(id);
  noteInFile(mine, both, piece, merged);
  merged.hasSettings ||= both.settings.length > 0;
  merged.added.tunes += both.tunes.length - mine.tunes.length;
  merged.added.sittings += both.sittings.length - mine.sittings.length;
  merged.added.passes += passesOf(both) - passesOf(mine);
}

function noteInFile(mine: Book, both: Book, piece: Book, { inFile }: Merged): void {
  // a merged log has all of both, so that one as long as the file's has nothing that the file lacks
  const lengths = ({ sittings }: Book): Map<string, number> =>
    new Map(sittings.map(({ id, log }) => [id, log.length]));
  const [whole, theirs] = [lengths(both), lengths(piece)];
  const isWhole = ({ id }: SealedSitting): boolean => whole.get(id) === theirs.get(id);
  inFile.sittings += mine.sittings.filter((sitting) => !isDemo(sitting) && isWhole(sitting)).length;
  const texts = new Map(piece.tunes.map((tune) => [tune.id, JSON.stringify(tune)]));
  for (const tune of both.tunes) if (texts.get(tune.id) === JSON.stringify(tune)) inFile.tuneIds.add(tune.id);
}

async function mergeOpen(
  db: BookDatabase,
  { id, drills, log }: SealedSitting,
  merged: Merged,
): Promise<void> {
  const added = await addToOpen(db, drills, log);
  merged.added.passes += countPasses(added);
  merged.open = { sittingId: id, drills, log: added };
}

/** Records read at a time for the second copy. */
const PIECE = 100;

/** Writes what a merge changed into the second copy. */
async function mirrorMerge(
  db: BookDatabase,
  { tuneIds, sittingIds, hasSettings, open }: Merged,
  copy: SecondCopy,
  onCopied: (done: number, all: number) => void,
): Promise<void> {
  for (let from = 0; from < tuneIds.length; from += PIECE) {
    const rows = await db.tunes.bulkGet(tuneIds.slice(from, from + PIECE));
    await copy.writeTunes(rows.filter(isTune));
  }
  for (let from = 0; from < sittingIds.length; from += PIECE) {
    onCopied(from, sittingIds.length);
    const months: MonthLines = new Map();
    // by a cursor, as in `eachSitting`: no more than one of a long log is in memory at a time
    const rows = db.sittings.where(':id').anyOf(sittingIds.slice(from, from + PIECE));
    await rows.each((row) => {
      if (isSealed(row)) addLine(months, row);
    });
    await copy.appendLines(months);
  }
  if (hasSettings) await copy.writeSettings(await db.settings.toArray());
  if (!open) return;
  for (const drill of open.drills) await copy.noteDrill(drill);
  for (const entry of open.log) await copy.noteEntry(open.sittingId, entry);
}

/** The records of ours that a book has too. A damaged row gives way to the whole one, and is set aside. */
async function readSame(db: BookDatabase, book: Book): Promise<Book> {
  const [tunes, sittings, settings] = await Promise.all([
    db.tunes.bulkGet(book.tunes.map(({ id }) => id)),
    db.sittings.bulkGet(book.sittings.map(({ id }) => id)),
    db.settings.bulkGet(book.settings.map(({ key }) => key)),
  ]);
  const damaged = [
    ...damagedAmong('tunes', tunes),
    ...damagedAmong('sittings', sittings),
    ...damagedAmong('settings', settings),
  ];
  if (damaged.length > 0) await keepAside(db, damaged);
  return {
    tunes: tunes.filter(isTune),
    sittings: sittings.filter(isSealed),
    settings: settings.filter(isSettingRow),
  };
}

function passesOf({ sittings }: Book): number {
  return sittings.reduce((sum, { log }) => sum + countPasses(log), 0);
}
