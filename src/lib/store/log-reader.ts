import type { SealedSitting } from '$lib/core/practice/records';
import type { FoldHead, KeptFold } from '$lib/core/progress/kept-fold';
import type { Tune } from '$lib/core/tune/tune';
import { FOLD_HEAD, FOLD_PART, isFoldHead, isFoldPart, LOG_REVISION, revisionIn } from './fold-rows';
import { pastLost } from './lost-values';
import { committed, settled } from './requests';
import { isSealed, isTune } from './row-shapes';

/** Sittings read in one transaction: some ten thousand passes. A long one would hold up whoever wants to write. */
const PIECE = 100;
const TABLES = ['tunes', 'sittings', 'meta'];
const PARTS = IDBKeyRange.bound(FOLD_PART, `${FOLD_PART}\uffff`);

/** The book but for its log, as one transaction saw it. */
export interface BookHead {
  tunes: Tune[];
  /** How often tunes or sealed sittings have changed. */
  revision: number;
  /** Sealed sittings in all. */
  sittings: number;
}

/** What a start needs. */
export interface LogStart extends BookHead {
  /** Sealed sittings that began at the instant asked for or later. */
  recent: SealedSitting[];
  /** The fold that was kept, and the revision of the log that it is of. */
  kept: { fold: KeptFold; revision: number } | null;
}

interface HeadRow {
  head: FoldHead;
  revision: number;
  parts: number;
}

/**
 * What the practice worker reads and keeps of the book by itself, by a connection of its own: a long log and its fold never pass
 * through the page, which would stand still meanwhile. Without Dexie, which would be half of the worker. Rows that are no records
 * are passed over; the backup worker's `look` names them.
 */
export class LogReader {
  readonly #db: IDBDatabase;

  private constructor(db: IDBDatabase) {
    this.#db = db;
    // another tab upgrades or deletes the book: the page says so, and this connection must not hold it up
    db.onversionchange = () => db.close();
  }

  /** Opens a book that is there. `onLost`: the browser has closed the connection by itself, and another may be opened. */
  static async open(name: string, onLost: () => void): Promise<LogReader> {
    const request = indexedDB.open(name);
    // none is made: the page opens the book before it asks for a worker
    request.onupgradeneeded = () => request.transaction?.abort();
    const db = await settled(request);
    db.onclose = onLost;
    return new LogReader(db);
  }

  /** Does reading of this reader's again where lost values stand in its way (lost-values.ts). */
  pastLost<T>(work: () => Promise<T>): Promise<T> {
    return pastLost(this.#db, work);
  }

  head(): Promise<BookHead> {
    return headIn(this.#db.transaction(TABLES));
  }

  async start(recentFrom: number): Promise<LogStart> {
    const tables = this.#db.transaction(TABLES);
    const meta = tables.objectStore('meta');
    const ofRecent = tables.objectStore('sittings').index('at').getAll(IDBKeyRange.lowerBound(recentFrom));
    const [head, recent, fold, parts] = await Promise.all([
      headIn(tables),
      settled<unknown[]>(ofRecent),
      settled<unknown>(meta.get(FOLD_HEAD)),
      settled<unknown[]>(meta.getAll(PARTS)),
    ]);
    return { ...head, recent: recent.filter(isSealed), kept: keptIn(valueOf(fold), parts.map(valueOf)) };
  }

  async revision(): Promise<number> {
    return revisionIn(await settled(this.#db.transaction('meta').objectStore('meta').get(LOG_REVISION)));
  }

  /** The newest sealed sittings, at most so many, oldest first. */
  async newest(most: number): Promise<SealedSitting[]> {
    const found: SealedSitting[] = [];
    const request = this.#sittingsByTime().openCursor(null, 'prev');
    for (
      let cursor = await settled(request);
      cursor && found.length < most;
      cursor = await settled(request)
    ) {
      if (isSealed(cursor.value)) found.push(cursor.value);
      cursor.continue();
    }
    return found.reverse();
  }

  /** Every sealed sitting by the time at which it began, some at a time; the next are fetched while the last are worked on. */
  async *pieces(): AsyncIterable<SealedSitting[]> {
    let most = PIECE;
    let atLast = new Set<IDBValidKey>();
    let asked = this.#from(null, most);
    for (;;) {
      const rows = await asked;
      const last = rows.at(-1);
      const isOver = rows.length < most;
      const fresh = rows.filter(({ id }) => !atLast.has(id));
      // more sittings than a piece began at one instant
      if (fresh.length === 0) most *= 2;
      if (last) atLast = new Set(rows.filter(({ at }) => at === last.at).map(({ id }) => id));
      if (!isOver && last) asked = this.#from(last.at, most);
      yield fresh.filter(isSealed);
      if (isOver || !last) return;
    }
  }

  #from(at: IDBValidKey | null, most: number): Promise<{ id: IDBValidKey; at: IDBValidKey }[]> {
    return settled(this.#sittingsByTime().getAll(at === null ? null : IDBKeyRange.lowerBound(at), most));
  }

  #sittingsByTime(): IDBIndex {
    return this.#db.transaction('sittings').objectStore('sittings').index('at');
  }

  /** Keeps a fold of the log at a revision: the parts given, or all when `isWhole`. Nothing is kept when the log has changed since. */
  async keep({ head, parts }: KeptFold, isWhole: boolean, revision: number): Promise<void> {
    const transaction = this.#db.transaction('meta', 'readwrite');
    const meta = transaction.objectStore('meta');
    if (revisionIn(await settled(meta.get(LOG_REVISION))) !== revision) return;
    if (isWhole) meta.delete(PARTS);
    for (const part of parts) meta.put({ key: FOLD_PART + String(part.part), value: part });
    const row: HeadRow = { head, revision, parts: await settled(meta.count(PARTS)) };
    meta.put({ key: FOLD_HEAD, value: row });
    await committed(transaction);
  }

  close(): void {
    this.#db.close();
  }
}

async function headIn(tables: IDBTransaction): Promise<BookHead> {
  const [tunes, sittings, revision] = await Promise.all([
    settled<unknown[]>(tables.objectStore('tunes').getAll()),
    settled(tables.objectStore('sittings').count()),
    settled<unknown>(tables.objectStore('meta').get(LOG_REVISION)),
  ]);
  return { tunes: tunes.filter(isTune), sittings, revision: revisionIn(revision) };
}

function valueOf(row: unknown): unknown {
  return (row as { value?: unknown } | undefined)?.value;
}

function keptIn(headRow: unknown, parts: unknown[]): LogStart['kept'] {
  const { head, revision, parts: count } = (headRow ?? {}) as Partial<HeadRow>;
  const sound = parts.filter(isFoldPart);
  if (!isFoldHead(head) || typeof revision !== 'number' || sound.length !== count) return null;
  return { fold: { head, parts: sound }, revision };
}
