import { countPasses, type Book } from '$lib/core/book/book';
import { mergeBooks, mergeSittings } from '$lib/core/book/merge';
import { TIME_MIN } from '$lib/core/book/limits';
import { isSettingRow } from '$lib/core/book/settings';
import type { LogEntry, SealedSitting, Sitting } from '$lib/core/practice/records';
import type { BookDatabase } from './database';
import { raiseLogRevision } from './fold-rows';
import { addToOpen, hasPass, readOpen, sealOpen } from './open-sitting';
import { isSealed, isTune } from './row-shapes';
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
  const mine = await readRecords(db);
  // a change reaches the copy after the database, so a copy that is behind knows nothing of its own
  const isBehind = isSame && marker.revision < stamp.revision;
  const whole = isBehind ? mine : mergeBooks(mine, await copy.readBook());
  const agreed = stamp ?? marker ?? newStamp();
  const next = { bookId: agreed.bookId, revision: Math.max(stamp?.revision ?? 0, marker?.revision ?? 0) + 1 };
  await db.transaction('rw', [db.tunes, db.sittings, db.settings, db.meta], async () => {
    if (!isBehind) await putRecords(db, whole);
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
  const mended = await db.transaction('rw', tables, () => takeIn(db, journal));
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
  const found = sealOpen({ sitting, drills, log });
  const united = sealed ? mergeSittings(sealed, { ...found, endedAt: 0 }) : found;
  if (sealed?.log.length === united.log.length) return { passes: 0, sittings: 0, sealed: null };
  await db.sittings.put(united);
  await raiseLogRevision(db);
  const passes = countPasses(united.log) - countPasses(sealed?.log ?? []);
  return { passes, sittings: sealed ? 0 : 1, sealed: united };
}

/** Stands in for a sitting whose own file was lost. */
function sittingOf(id: string, log: readonly LogEntry[]): Sitting {
  const { at, offsetMin } = log[0] ?? { at: TIME_MIN, offsetMin: 0 };
  return { id, at, offsetMin, minutes: 0, tuning: null, hands: 'fresh', note: '', origin: 'own' };
}

/** Writes into the journal what only the rows of the open sitting have. */
async function noteOpen(db: BookDatabase, copy: SecondCopy, journals: readonly Journal[]): Promise<void> {
  const open = await readOpen(db);
  if (!open) return;
  const { sitting, drills, log } = open;
  const journal = journals.find(({ sittingId }) => sittingId === sitting.id);
  if (!journal?.sitting) await copy.noteSitting(sitting);
  const noted = new Set([...(journal?.drills ?? []), ...(journal?.log ?? [])].map(({ id }) => id));
  for (const drill of drills) if (!noted.has(drill.id)) await copy.noteDrill(drill);
  for (const entry of log) if (!noted.has(entry.id)) await copy.noteEntry(sitting.id, entry);
}

/** The sound records. A damaged row counts as missing, and so the copy can put it back. */
async function readRecords(db: BookDatabase): Promise<Book> {
  const [tunes, sittings, settings] = await Promise.all([
    db.tunes.toArray(),
    db.sittings.toArray(),
    db.settings.toArray(),
  ]);
  return {
    tunes: tunes.filter(isTune),
    sittings: sittings.filter(isSealed),
    settings: settings.filter(isSettingRow),
  };
}

async function putRecords(db: BookDatabase, { tunes, sittings, settings }: Book): Promise<void> {
  await db.tunes.bulkPut(tunes);
  await db.sittings.bulkPut(sittings);
  await db.settings.bulkPut(settings);
}

function difference(before: Book, after: Book): Restored {
  const passes = ({ sittings }: Book): number => sittings.reduce((sum, { log }) => sum + countPasses(log), 0);
  return {
    tunes: after.tunes.length - before.tunes.length,
    sittings: after.sittings.length - before.sittings.length,
    passes: passes(after) - passes(before),
  };
}
