import { say } from '$lib/texts/book';
import type { BookDatabase } from './database';
import { raiseLogRevision } from './fold-rows';
import { withLock } from './lock';
import { inPlainWordsPastLost, pastLost } from './lost-values';
import { healOpen, isOpenWhole } from './open-sitting';
import { SecondCopy } from './second-copy';
import { copyFailed, type SecondCopyState } from './sentences';
import type { DamagedTable } from './set-aside';
import {
  ensureStamp,
  eraseBoth,
  readStamp,
  reconcile,
  writeStamp,
  type BookStamp,
  type Restored,
} from './stamp';
import { inPlainWords, StoreTrouble } from './trouble';

/** A copy that failed is tried again with the first pass after so long: the disk may have been full and be so no more. */
const TRY_AGAIN_MS = 5000;

/**
 * The two copies of a book, IndexedDB and the files beside it, and the one way to change both. Where only the second one
 * fails, `state` says so, and it is written anew as soon as it can be.
 */
export class TwoCopies {
  readonly db: BookDatabase;
  readonly #name: string;
  #copy: SecondCopy | null = null;
  #state: SecondCopyState = { isKept: true };
  /** A copy that failed, and when (ms of the page's own clock). */
  #failed: { copy: SecondCopy; at: number } | null = null;

  private constructor(name: string, db: BookDatabase) {
    this.#name = name;
    this.db = db;
  }

  /** Joins the copies after making them agree; `restored` says what the database got back from the files. */
  static async join(
    name: string,
    db: BookDatabase,
  ): Promise<{ copies: TwoCopies; restored: Restored | null }> {
    // Dexie follows the awaits of a scope only where the scope itself is an async function
    const open = [db.sitting, db.drills, db.passes];
    // read first: WebKit never grants a write over what a page was reading when it was left
    const isWhole = (): PromiseLike<boolean> => db.transaction('r', open, async () => await isOpenWhole(db));
    if (!(await inPlainWordsPastLost(db, isWhole)))
      await inPlainWords(() => db.transaction('rw', [...open, db.meta], async () => await healOpen(db)));
    const copies = new TwoCopies(name, db);
    const copy = await SecondCopy.open(name);
    if (!copy) {
      await inPlainWords(() => ensureStamp(db));
      copies.#state = { isKept: false, why: say.oneCopy };
      return { copies, restored: null };
    }
    copies.#copy = copy;
    try {
      return {
        copies,
        restored: await copies.locked(() => pastLost(db.backendDB(), () => reconcile(db, copy))),
      };
    } catch (error) {
      if (error instanceof StoreTrouble) throw error;
      copies.#fail(copy, error);
      await inPlainWords(() => ensureStamp(db));
      return { copies, restored: null };
    }
  }

  get state(): SecondCopyState {
    return this.#state;
  }

  /** The second copy, where there is one that works. */
  get copy(): SecondCopy | null {
    return this.#copy;
  }

  /** Does the work when no other tab, and nothing else here, is at work on the book's records. */
  locked<T>(work: () => Promise<T>): Promise<T> {
    return withLock(this.#name, work);
  }

  /** One change of records: a transaction that also counts it, then the second copy, then its marker. */
  async change<T>(
    tables: readonly DamagedTable[],
    work: () => PromiseLike<T>,
    mirror: (result: T, copy: SecondCopy) => Promise<void>,
  ): Promise<T> {
    const result = await this.locked(() => this.changeUnderLock(tables, work, mirror));
    // nobody waits for it: it may be long, and says by itself how it went
    void this.mendCopy();
    return result;
  }

  /** As `change`, by one who holds the lock. */
  async changeUnderLock<T>(
    tables: readonly DamagedTable[],
    work: () => PromiseLike<T>,
    mirror: (result: T, copy: SecondCopy) => Promise<void>,
  ): Promise<T> {
    const { db } = this;
    const write = (): PromiseLike<{ result: T; stamp: BookStamp }> =>
      db.transaction('rw', [...tables, 'meta'], async () => {
        const done = await work();
        if (tables.includes('tunes') || tables.includes('sittings')) await raiseLogRevision(db);
        const old = (await readStamp(db)) ?? (await ensureStamp(db));
        const next = { ...old, revision: old.revision + 1 };
        await writeStamp(db, next);
        return { result: done, stamp: next };
      });
    const { result, stamp } = await inPlainWordsPastLost(db, write);
    await this.mirror(async (copy) => {
      await mirror(result, copy);
      await copy.advance(stamp.bookId, stamp.revision);
    });
    return result;
  }

  /** Does something to the second copy; after its first failure nothing until `mendCopy`. */
  async mirror(work: (copy: SecondCopy) => Promise<void>): Promise<void> {
    const copy = this.#copy;
    if (!copy) return;
    try {
      await work(copy);
    } catch (error) {
      this.#fail(copy, error);
    }
  }

  /** Writes a second copy that failed anew, unless that was tried a moment ago. Not to be called under the lock. */
  async mendCopy(): Promise<void> {
    const failed = this.#failed;
    if (!failed || performance.now() - failed.at < TRY_AGAIN_MS) return;
    try {
      const { mendBoth } = await import('./mend');
      this.#failed = null;
      // from now on passes are noted again: those written meanwhile would be in neither
      this.#copy = failed.copy;
      await this.locked(() => mendBoth(this.db, failed.copy));
      this.#state = { isKept: true };
    } catch (error) {
      this.#fail(failed.copy, error);
    }
  }

  /** Empties both: a second copy that has failed too, for what stayed in it would come back at the next start. */
  async erase(): Promise<void> {
    const copy = this.#copy ?? this.#failed?.copy ?? null;
    await this.locked(() => inPlainWords(() => eraseBoth(this.db, copy)));
    if (!copy) return;
    [this.#copy, this.#failed] = [copy, null];
    this.#state = { isKept: true };
  }

  #fail(copy: SecondCopy, error: unknown): void {
    this.#copy = null;
    this.#failed = { copy, at: performance.now() };
    this.#state = copyFailed(error);
  }
}
