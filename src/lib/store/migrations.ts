import type { Dexie, Transaction } from 'dexie';

/** One version of the tables, and how a book of the version before becomes one of it. */
interface Migration {
  version: number;
  /** Tables that are new or indexed otherwise than before, in Dexie's words; `null` takes one away. */
  stores: Readonly<Record<string, string | null>>;
  /** What has to happen to the records; in the transaction of the upgrade, so whole or not at all. */
  upgrade?: (change: Transaction) => Promise<void>;
}

/**
 * Every version of the tables since the first, in order. A row is never changed once an app with it was in use: a book
 * of any version goes through the steps after its own. Each has a fixture of a book in tests/fixtures/databases.
 */
const MIGRATIONS: readonly Migration[] = [
  {
    version: 1,
    stores: {
      tunes: 'id',
      sittings: 'id, at',
      sitting: 'slot',
      drills: '++n, &id',
      passes: '++n, &id',
      settings: 'key',
      meta: 'key',
    },
  },
  // melodies, labels, fingers, weights and ties in a tune: all may be missing, so records and tables stand as they were
  { version: 2, stores: {} },
  // the length in which a measure was written, where the meter asks for another: may be missing
  { version: 3, stores: {} },
];

/** The version of the tables that this app reads and writes. */
export const SCHEMA_VERSION = MIGRATIONS.length;

/** Tells a database of every version and of the way from each to the next. */
export function declareVersions(db: Dexie): void {
  for (const { version, stores, upgrade } of MIGRATIONS) {
    const declared = db.version(version).stores(stores);
    if (upgrade) declared.upgrade(upgrade);
  }
}
