/** A whole database as one file of tests/fixtures/databases holds it. */
export interface OldDatabase {
  nativeVersion: number;
  stores: Record<
    string,
    {
      keyPath: string;
      autoIncrement: boolean;
      indexes: { name: string; keyPath: string; unique: boolean }[];
    }
  >;
  rows: Record<string, unknown[]>;
}

/** Puts an old database in place by IndexedDB alone. Names nothing outside itself, so that it can run in any page. */
export async function putDatabase([name, old]: readonly [string, OldDatabase]): Promise<void> {
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(name, old.nativeVersion);
    request.onupgradeneeded = () => {
      for (const [table, { keyPath, autoIncrement, indexes }] of Object.entries(old.stores)) {
        const store = request.result.createObjectStore(table, { keyPath, autoIncrement });
        for (const { name: index, keyPath: path, unique } of indexes)
          store.createIndex(index, path, { unique });
      }
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('no database'));
  });
  const writing = db.transaction(Object.keys(old.rows), 'readwrite');
  for (const [table, rows] of Object.entries(old.rows)) {
    for (const row of rows) writing.objectStore(table).put(row);
  }
  await new Promise((resolve, reject) => {
    writing.oncomplete = resolve;
    writing.onabort = () => reject(writing.error ?? new Error('not written'));
  });
  db.close();
}
