import { describe, expect, test } from 'vitest';
import { checkBook } from '../../src/lib/core/book/schema';
import { SCHEMA_VERSION } from '../../src/lib/store/migrations';
import type { LogEntry, SealedSitting } from '../../src/lib/core/practice/records';
import type { SettingRow } from '../../src/lib/core/book/settings';
import type { Tune } from '../../src/lib/core/tune/tune';
import { freshName, openStore } from './made-up-store';
import { putDatabase, type OldDatabase } from './old-database';

interface Rows {
  tunes: Tune[];
  sittings: SealedSitting[];
  settings: SettingRow[];
  passes: { entry: LogEntry }[];
}

const FIXTURES = import.meta.glob<OldDatabase>('../fixtures/databases/version-*.json', {
  eager: true,
  import: 'default',
});
const fixtureOf = (version: number) => FIXTURES[`../fixtures/databases/version-${version}.json`];
const older = Array.from({ length: SCHEMA_VERSION - 1 }, (_, index) => index + 1);

/** Stores, keys and indexes of a database, and its native version. */
async function shapeOf(name: string): Promise<unknown> {
  const request = indexedDB.open(name);
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('no database'));
  });
  const tables = db.transaction([...db.objectStoreNames]);
  const stores = [...db.objectStoreNames].map((table) => {
    const { keyPath, autoIncrement, indexNames } = tables.objectStore(table);
    const indexes = [...indexNames].map((index) => {
      const { keyPath: path, unique } = tables.objectStore(table).index(index);
      return { index, path, unique };
    });
    return { table, keyPath, autoIncrement, indexes };
  });
  db.close();
  return { version: db.version, stores };
}

test('there is a fixture of every version before the present one', () => {
  expect(older.length).toBeGreaterThan(0);
  for (const version of older) expect(fixtureOf(version)?.nativeVersion).toBe(version * 10);
});

describe.each(older)('a book of version %i', (version) => {
  test('opens with every record, and goes on where it was left', async () => {
    const old = fixtureOf(version)!;
    const rows = old.rows as unknown as Rows;
    const name = freshName();
    await putDatabase([name, old]);
    const store = await openStore(name);
    expect(await store.tunes()).toEqual(rows.tunes);
    expect(await store.sittings()).toEqual(rows.sittings);
    expect(await store.settings()).toEqual(rows.settings);
    expect((await store.openSitting())?.log).toEqual(rows.passes.map(({ entry }) => entry));
    expect(checkBook(await store.readBook())).toMatchObject({ ok: true });
    expect(store.damaged).toBe(0);
    const sealed = await store.seal(1_772_400_000_000);
    expect(sealed?.log).toHaveLength(rows.passes.length);
  });

  test('has the same tables as a new one', async () => {
    const name = freshName();
    await putDatabase([name, fixtureOf(version)!]);
    await (await openStore(name)).close();
    const fresh = freshName();
    await (await openStore(fresh)).close();
    expect(await shapeOf(name)).toEqual(await shapeOf(fresh));
  });
});
