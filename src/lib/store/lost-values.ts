import type { BookDatabase } from './database';
import { LOG_REVISION, revisionIn } from './fold-rows';
import { committed, settled } from './requests';
import { hasName, inPlainWords } from './trouble';

/**
 * Does the work; where the value of a row is lost, puts damaged ones in the place of all such rows and does it again. Chromium
 * keeps a large value in a file beside its database, and without that file refuses the row for good, and every request for it
 * among others: one sitting would stand in the way of the whole book.
 */
export async function pastLost<T>(db: IDBDatabase, work: () => PromiseLike<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!hasName(error, 'NotReadableError')) throw error;
    await levelLost(db);
    return work();
  }
}

/** The outcome of work on the book, past lost values, with its errors as `inPlainWords` says them. */
export function inPlainWordsPastLost<T>(db: BookDatabase, work: () => PromiseLike<T>): Promise<T> {
  return inPlainWords(() => pastLost(db.backendDB(), work));
}

/** What is left of the rows is their keys: no records, so they are set aside, and put back by the second copy, as any damaged ones. */
async function levelLost(db: IDBDatabase): Promise<void> {
  for (const table of db.objectStoreNames) {
    const lost = await lostKeys(db, table);
    if (lost.length > 0) await level(db, table, lost);
  }
}

async function lostKeys(db: IDBDatabase, table: string): Promise<IDBValidKey[]> {
  const lost: IDBValidKey[] = [];
  for (const key of await settled(db.transaction(table).objectStore(table).getAllKeys())) {
    try {
      await settled(db.transaction(table).objectStore(table).get(key));
    } catch (error) {
      if (!hasName(error, 'NotReadableError')) throw error;
      lost.push(key);
    }
  }
  return lost;
}

async function level(db: IDBDatabase, table: string, keys: readonly IDBValidKey[]): Promise<void> {
  const change = db.transaction([table, 'meta'], 'readwrite', { durability: 'strict' });
  const rows = change.objectStore(table);
  for (const key of keys) {
    // the fold is made anew, and the second copy has the drafts
    if (table === 'meta') rows.delete(key);
    else rows.put({ [rows.keyPath as string]: key });
  }
  if (table === 'tunes' || table === 'sittings') {
    const meta = change.objectStore('meta');
    const revision = revisionIn(await settled<unknown>(meta.get(LOG_REVISION)));
    meta.put({ key: LOG_REVISION, value: revision + 1 });
  }
  await committed(change);
}
