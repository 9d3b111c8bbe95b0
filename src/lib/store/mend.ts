import { countPasses, emptyBook, type Book } from '$lib/core/book/book';
import { mergeBooks, mergeSittings } from '$lib/core/book/merge';
import { isSettingRow } from '$lib/core/book/settings';
import type { SealedSitting } from '$lib/core/practice/records';
import type { BookDatabase } from './database';
import { raiseLogRevision } from './fold-rows';
import { addToOpen, hasPass, readOpen, sealOpen, sittingOf, straysOf } from './open-sitting';
import { isSealed, isTune } from './row-shapes';
import { damagedAmong, keepAside, keepAsideBefore, type DamagedRow } from './set-aside';
import { eraseBoth, newStamp, readStamp, writeStamp, type Restored } from './stamp';
import type { Journal, Marker, SecondCopy } from './second-copy';

/** Makes the two copies agree, and counts what the database got back. See `reconcile`. */
export async function mendBoth(db: BookDatabase, copy: SecondCopy): Promise<Restored> {
  let marker = await copy.readMarker();
  if (marker?.isErasing) {
    await eraseBoth(db, copy);
    marker = null;
  }
  const restored = await mendRecords(db, copy, marker);
  const journals = await copy.readJournals();
  for (const journal of journals) {
    const { passes, sittings } = await mendJournal(db, copy, journal);
    restored.passes += passes;
    restored.sittings += sittings;
  }
  await noteOpen(db, copy, journals);
  return restored;
}

async function mendRecords(db: BookDatabase, copy: SecondCopy, marker: Marker | null): Promise<Restored> {
  const stamp = await readStamp(db);
  const isSame = stamp !== null && stamp.bookId === marker?.bookId;
  if (isSame && stamp.revision === marker.revision) return { tunes: 0, sittings: 0, passes: 0 };
  const { mine, damaged } = await readRecords(db);
  // a change reaches the copy after the database, so a copy that is behind knows nothing of its own but what was damaged here
  const isBehind = isSame && marker.revision < stamp.revision;
  const isAsked = !isBehind || damaged.length > 0;
  const theirs = isAsked ? await copy.readBook() : emptyBook();
  const whole = mergeBooks(mine, isBehind ? onlyThese(theirs, damaged) : theirs);
  const agreed = stamp ?? marker ?? newStamp();
  const next = { bookId: agreed.bookId, revision: Math.max(stamp?.revision ?? 0, marker?.revision ?? 0) + 1 };
  await db.transaction('rw', [db.tunes, db.sittings, db.settings, db.meta], async () => {
    if (isAsked) await putRecords(db, whole, damaged);
    await writeStamp(db, next);
    await raiseLogRevision(db);
  });
  await copy.replace(whole);
  await copy.writeMarker({ ...next, isErasing: false });
  return difference(mine, whole);
}

interface Mended {
  passes: number;
  sittings: number;
  /** The sealed sitting that was made or grew. */
  sealed: SealedSitting | null;
}

/** Takes in what a journal has more than the database: it outlived its sitting's end, or the database lost the sitting. */
async function mendJournal(db: BookDatabase, copy: SecondCopy, journal: Journal): Promise<Mended> {
  const tables = [db.sitting, db.drills, db.passes, db.sittings, db.meta];
  const mended = await db.transaction('rw', tables, async () => await takeIn(db, journal));
  if (mended.sealed) await copy.appendSittings([mended.sealed]);
  const isOpen = (await db.sitting.get('open'))?.sitting.id === journal.sittingId;
  if (!isOpen) await copy.removeJournal(journal.sittingId);
  return mended;
}

async function takeIn(db: BookDatabase, journal: Journal): Promise<Mended> {
  const { sittingId, drills, log } = journal;
  const open = await readOpen(db);
  const isOpen = open?.sitting.id === sittingId;
  const row = await db.sittings.get(sittingId);
  const sealed = isSealed(row) ? row : null;
  if (!isOpen && !hasPass(log)) return { passes: 0, sittings: 0, sealed: null };
  const sitting = journal.sitting ?? sittingOf(sittingId, log);
  if (isOpen || (!open && !sealed)) {
    if (!isOpen) await db.sitting.put({ slot: 'open', sitting });
    return { passes: countPasses(await addToOpen(db, drills, log)), sittings: 0, sealed: null };
  }
  const lost = straysOf({ sitting, drills, log });
  if (lost.length > 0) await keepAside(db, lost);
  await keepAsideBefore(db, { sittings: [sittingId] });
  const found = sealOpen({ sitting, drills, log });
  const united = sealed ? mergeSittings(sealed, { ...found, endedAt: 0 }) : found;
  if (sealed?.log.length === united.log.length) return { passes: 0, sittings: 0, sealed: null };
  await db.sittings.put(united);
  await raiseLogRevision(db);
  const passes = countPasses(united.log) - countPasses(sealed?.log ?? []);
  return { passes, sittings: sealed ? 0 : 1, sealed: united };
}

/** Writes into the journal what only the rows of the open sitting have. */
async function noteOpen(db: BookDatabase, copy: SecondCopy, journals: readonly Journal[]): Promise<void> {
  const open = await readOpen(db);
  if (!open) return;
  const { sitting, drills, log } = open;
  const journal = journals.find(({ sittingId }) => sittingId === sitting.id);
  // a line of notes may have been written while the copy failed
  if (JSON.stringify(journal?.sitting) !== JSON.stringify(sitting)) await copy.noteSitting(sitting);
  const noted = new Set([...(journal?.drills ?? []), ...(journal?.log ?? [])].map(({ id }) => id));
  for (const drill of drills) if (!noted.has(drill.id)) await copy.noteDrill(drill);
  for (const entry of log) if (!noted.has(entry.id)) await copy.noteEntry(sitting.id, entry);
}

/** Puts back from the copy what is damaged in the database, and counts it. To be called under the book's lock. */
export async function restoreDamaged(db: BookDatabase, copy: SecondCopy): Promise<number> {
  const { damaged } = await readRecords(db);
  if (damaged.length === 0) return 0;
  const back = onlyThese(await copy.readBook(), damaged);
  await db.transaction('rw', [db.tunes, db.sittings, db.settings, db.meta], async () => {
    await putRecords(db, back, damaged);
    await raiseLogRevision(db);
  });
  return back.tunes.length + back.sittings.length + back.settings.length;
}

function onlyThese({ tunes, sittings, settings }: Book, wanted: readonly DamagedRow[]): Book {
  const ids = new Set(wanted.map(({ table, id }) => `${table}/${id}`));
  return {
    tunes: tunes.filter(({ id }) => ids.has(`tunes/${id}`)),
    sittings: sittings.filter(({ id }) => ids.has(`sittings/${id}`)),
    settings: settings.filter(({ key }) => ids.has(`settings/${key}`)),
  };
}

/** The sound records, and the rows that are none: they count as missing, and so the copy can put them back. */
async function readRecords(db: BookDatabase): Promise<{ mine: Book; damaged: DamagedRow[] }> {
  const [tunes, sittings, settings] = await Promise.all([
    db.tunes.toArray(),
    db.sittings.toArray(),
    db.settings.toArray(),
  ]);
  const mine = {
    tunes: tunes.filter(isTune),
    sittings: sittings.filter(isSealed),
    settings: settings.filter(isSettingRow),
  };
  const damaged = [
    ...damagedAmong('tunes', tunes),
    ...damagedAmong('sittings', sittings),
    ...damagedAmong('settings', settings),
  ];
  return { mine, damaged };
}

async function putRecords(db: BookDatabase, book: Book, damaged: readonly DamagedRow[]): Promise<void> {
  if (damaged.length > 0) await keepAside(db, damaged);
  await db.tunes.bulkPut(book.tunes);
  await db.sittings.bulkPut(book.sittings);
  await db.settings.bulkPut(book.settings);
}

function difference(before: Book, after: Book): Restored {
  const passes = ({ sittings }: Book): number => sittings.reduce((sum, { log }) => sum + countPasses(log), 0);
  return {
    tunes: after.tunes.length - before.tunes.length,
    sittings: after.sittings.length - before.sittings.length,
    passes: passes(after) - passes(before),
  };
}
