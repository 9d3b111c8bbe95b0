import { say } from '$lib/texts/book';
import type { BookDatabase } from './database';
import { SCHEMA_VERSION } from './migrations';
import type { SecondCopy } from './second-copy';
import { StoreTrouble } from './trouble';

/** Which book this is, and how many changes it has seen; kept in the meta table and, for the second copy, in its marker. */
export interface BookStamp {
  bookId: string;
  revision: number;
}

/** What the second copy put back. */
export interface Restored {
  tunes: number;
  sittings: number;
  passes: number;
}

const STAMP = 'stamp';

export async function readStamp(db: BookDatabase): Promise<BookStamp | null> {
  const { bookId, revision } = ((await db.meta.get(STAMP))?.value ?? {}) as Partial<
    Record<keyof BookStamp, unknown>
  >;
  // one that is damaged is none: the copies are then compared record by record
  return typeof bookId === 'string' && Number.isSafeInteger(revision)
    ? { bookId, revision: revision as number }
    : null;
}

export async function writeStamp(db: BookDatabase, stamp: BookStamp): Promise<void> {
  await db.meta.put({ key: STAMP, value: stamp });
}

export function newStamp(): BookStamp {
  const words = crypto.getRandomValues(new Uint32Array(4));
  return { bookId: Array.from(words, (word) => word.toString(36)).join('-'), revision: 0 };
}

/** A stamp for a database that has none. Nothing is written where it has one: see `TwoCopies.join` on writes at a start. */
export async function ensureStamp(db: BookDatabase): Promise<BookStamp> {
  const old = await readStamp(db);
  if (old) return old;
  const stamp = newStamp();
  await writeStamp(db, stamp);
  return stamp;
}

/**
 * Compares the two copies and mends either: what the database lacks is restored from the copy (a wiped database, a
 * journal not yet in it), and a copy that has fallen behind is written anew. To be called under the book's lock.
 */
export async function reconcile(db: BookDatabase, copy: SecondCopy): Promise<Restored> {
  const [stamp, marker, open, journals] = await Promise.all([
    readStamp(db),
    copy.readMarker(),
    db.sitting.count(),
    copy.journalNames(),
  ]);
  // a database that was lost, beside files that only a newer app knows to read
  if (marker && marker.version > SCHEMA_VERSION) throw new StoreTrouble('newer', say.newer, say.untouched);
  const agree = stamp !== null && marker?.bookId === stamp.bookId && marker.revision === stamp.revision;
  if (agree && !marker.isErasing && open === 0 && journals.length === 0) {
    return { tunes: 0, sittings: 0, passes: 0 };
  }
  const { mendBoth } = await import('./mend');
  return mendBoth(db, copy);
}

/** Empties both copies; the database gets a new stamp. To be called under the book's lock. */
export async function eraseBoth(db: BookDatabase, copy: SecondCopy | null): Promise<void> {
  const old = await readStamp(db);
  // where there is no room to say that erasing has begun, the files go first: until the database goes too it is whole
  await copy?.writeMarker({ ...(old ?? newStamp()), isErasing: true }).catch(() => copy.erase());
  const stamp = newStamp();
  await db.transaction('rw', db.tables, async () => {
    for (const table of db.tables) await table.clear();
    await writeStamp(db, stamp);
  });
  if (!copy) return;
  await copy.erase();
  await copy.writeMarker({ ...stamp, isErasing: false });
}
