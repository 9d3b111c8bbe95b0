/** IndexedDB by itself: the reads and writes of the app, with nothing made of them. */

export function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('IndexedDB failed'));
  });
}

export function completed(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error ?? new Error('IndexedDB gave up'));
  });
}

export async function timed(work: () => Promise<unknown>): Promise<number> {
  const before = performance.now();
  await work();
  return performance.now() - before;
}

export interface BareReads {
  /** ms: opening, every tune, the fold that was kept, and the sittings of the last two days: what a start reads. */
  start: number;
  tunes: number;
  fold: number;
  /** One tune and its part of the fold. */
  tune: number;
  /** Every sealed sitting, some at a time. */
  log: number;
}

const PIECE = 100;

export async function bareReads(name = 'phrasewright'): Promise<BareReads> {
  const before = performance.now();
  const db = await settled(indexedDB.open(name));
  const all = (table: string, range?: IDBKeyRange): Promise<unknown[]> =>
    settled(db.transaction(table).objectStore(table).getAll(range));
  const parts = IDBKeyRange.bound('fold/', 'fold/\uffff');
  const tunes = await timed(() => all('tunes'));
  const fold = await timed(() => all('meta', parts));
  const recent = IDBKeyRange.lowerBound(Date.now() - 2 * 86_400_000);
  await settled(db.transaction('sittings').objectStore('sittings').index('at').getAll(recent));
  const start = performance.now() - before;
  const first = (await settled(db.transaction('tunes').objectStore('tunes').getAllKeys(null, 1)))[0];
  const tune = await timed(async () => {
    await settled(db.transaction('tunes').objectStore('tunes').get(String(first)));
    await settled(db.transaction('meta').objectStore('meta').get(parts));
  });
  const log = await timed(() => readLog(db));
  db.close();
  return { start, tunes, fold, tune, log };
}

async function readLog(db: IDBDatabase): Promise<void> {
  const sittings = () => db.transaction('sittings').objectStore('sittings');
  for (let after: IDBKeyRange | undefined; ;) {
    const piece = await settled<{ id: string }[]>(sittings().getAll(after, PIECE));
    const last = piece.at(-1);
    if (!last) return;
    after = IDBKeyRange.lowerBound(last.id, true);
  }
}

export interface BareWrites {
  /** ms of each record added in a transaction of its own. */
  rows: number[];
  /** Those rows read, removed, and put as one record. */
  sealMs: number;
}

export async function bareWrites(records: number): Promise<BareWrites> {
  const name = 'bare';
  const opening = indexedDB.open(name);
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore('rows', { autoIncrement: true, keyPath: 'n' }).createIndex('id', 'id', {
      unique: true,
    });
    opening.result.createObjectStore('sealed', { keyPath: 'id' }).createIndex('at', 'at');
  };
  const db = await settled(opening);
  const rows: number[] = [];
  for (let record = 0; record < records; record++) rows.push(await timed(() => addRow(db, record)));
  const sealMs = await timed(() => sealRows(db));
  db.close();
  await settled(indexedDB.deleteDatabase(name));
  return { rows, sealMs };
}

async function addRow(db: IDBDatabase, record: number): Promise<void> {
  const transaction = db.transaction('rows', 'readwrite', { durability: 'strict' });
  const id = `019ac000-0000-7000-8000-${String(record).padStart(12, '0')}`;
  const entry = { kind: 'pass', id, drillId: id, at: Date.now(), offsetMin: 0, tempo: 80, outcome: 'clean' };
  transaction.objectStore('rows').add({ id, entry: { ...entry, fromMemory: true, missAt: null } });
  await completed(transaction);
}

async function sealRows(db: IDBDatabase): Promise<void> {
  const transaction = db.transaction(['rows', 'sealed'], 'readwrite', { durability: 'strict' });
  const log = await settled<unknown[]>(transaction.objectStore('rows').getAll());
  transaction.objectStore('rows').clear();
  transaction.objectStore('sealed').put({ id: 'sitting', at: Date.now(), log });
  await completed(transaction);
}
