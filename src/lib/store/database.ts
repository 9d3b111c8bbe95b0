import type { EntityTable, Table } from 'dexie';
import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import type { SettingRow } from '$lib/core/book/settings';
import type { Drill, LogEntry, SealedSitting, Sitting } from '$lib/core/practice/records';
import type { Tune } from '$lib/core/tune/tune';
import { say } from '$lib/texts/book';
import { declareVersions, SCHEMA_VERSION } from './migrations';
import { inPlainWords, StoreTrouble } from './trouble';

/** Dexie keeps its versions times ten. */
const DEXIE_FACTOR = 10;

/** How long an upgrade waits for the other tabs to let go. */
const BLOCKED_MS = 5000;

/** The sitting that is open; the table holds one row or none. */
export interface OpenRow {
  slot: 'open';
  sitting: Sitting;
}

/** Rows of the open sitting, numbered in the order of writing, which ids alone do not tell when a clock was set back. */
export interface DrillRow {
  n: number;
  id: string;
  drill: Drill;
}

export interface EntryRow {
  n: number;
  id: string;
  entry: LogEntry;
}

export interface MetaRow {
  key: string;
  value: unknown;
}

export type BookDatabase = Dexie & {
  tunes: Table<Tune, string>;
  /** Sealed sittings only, each with its drills and its log. */
  sittings: Table<SealedSitting, string>;
  sitting: Table<OpenRow, string>;
  drills: EntityTable<DrillRow, 'n'>;
  passes: EntityTable<EntryRow, 'n'>;
  settings: Table<SettingRow, string>;
  meta: Table<MetaRow, string>;
};

/** Opens or makes the database. Rejects with a StoreTrouble; a newer book is left untouched. */
export async function openDatabase(name: string, onSuperseded: () => void): Promise<BookDatabase> {
  // Dexie would open a database of a later version all the same, and add the tables that it misses
  if ((await inPlainWords(() => versionOnDisk(name))) > SCHEMA_VERSION * DEXIE_FACTOR) {
    throw new StoreTrouble('newer', say.newer, say.untouched);
  }
  const db = new Dexie(name, {
    chromeTransactionDurability: 'strict',
    cache: 'disabled',
  }) as BookDatabase;
  declareVersions(db);
  db.on('versionchange', () => {
    db.close();
    onSuperseded();
    return false;
  });
  await inPlainWords(() => openOrGiveUp(db));
  return db;
}

/** The native version of a database, 0 when there is none; none is made by asking. */
function versionOnDisk(name: string): Promise<number> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    let isNew = false;
    request.onupgradeneeded = () => {
      isNew = true;
      request.transaction?.abort();
    };
    request.onsuccess = () => {
      const { version } = request.result;
      request.result.close();
      resolve(version);
    };
    request.onerror = (event) => {
      event.preventDefault();
      if (isNew) resolve(0);
      else reject(request.error ?? new Error(say.silentBrowser));
    };
  });
}

function openOrGiveUp(db: BookDatabase): Promise<unknown> {
  return new Promise((resolve, reject) => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    db.on('blocked', () => {
      timer ??= setTimeout(() => {
        db.close();
        reject(new StoreTrouble('blocked', say.olderTab, say.untouched));
      }, BLOCKED_MS);
      return false;
    });
    db.open()
      .finally(() => clearTimeout(timer))
      .then(resolve, reject);
  });
}
