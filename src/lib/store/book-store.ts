import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { byId, emptyBook, type Book } from '$lib/core/book/book';
import { isDemo } from '$lib/core/book/demo';
import { isSettingRow, type SettingName, type SettingRow, type SettingRowOf } from '$lib/core/book/settings';
import type { Drill, LogEntry, SealedSitting, Sitting } from '$lib/core/practice/records';
import type { Tune } from '$lib/core/tune/tune';
import { say } from '$lib/texts/book';
import { tuneRows, type TuneRow } from './change-tune';
import { BackupNotebook } from './backup-notes';
import { BOOK_NAME } from './book-name';
import { openDatabase, type BookDatabase } from './database';
import { Drafts } from './drafts';
import { readLogRevision } from './fold-rows';
import { inPlainWordsPastLost } from './lost-values';
import type { Added, BookPieces, MergeHow } from './merge-in';
import { addLate, addToOpen, readOpen, sealOpen, sealRows, type OpenSitting } from './open-sitting';
import { newestOf } from './read-log';
import { isDrill, isEntry, isSealed, isSitting } from './row-shapes';
import {
  damagedAmong,
  dropAside,
  isWhole,
  keepAside,
  keepAsideBefore,
  listAside,
  type AsideRow,
  type DamagedRow,
} from './set-aside';
import type { SecondCopy } from './second-copy';
import {
  asideSentence,
  closedElsewhere,
  damagedTrouble,
  recoveredSentence,
  type SecondCopyState,
} from './sentences';
import { inPlainWords } from './trouble';
import { TwoCopies } from './two-copies';

export { StoreTrouble } from './trouble';
export type { OpenSitting } from './open-sitting';
export type { SecondCopyState } from './sentences';
export type { AsideRow } from './set-aside';

const TABLE_NAMES = ['tunes', 'sittings', 'sitting', 'drills', 'passes', 'settings'] as const;
export type TableName = (typeof TABLE_NAMES)[number];

type SittingChange = (sitting: Sitting) => Partial<Pick<Sitting, 'note' | 'minutes' | 'tuning' | 'hands'>>;

/**
 * The book on this device, in two copies: IndexedDB, and files beside it (second-copy.ts). Every write resolves when
 * both have it, and rejects with a StoreTrouble when IndexedDB has not; where only the second copy fails, `secondCopy`
 * says so. All tabs share one book; changes of records take turns by a Web Lock.
 */
export class BookStore {
  /** A sentence when something was put back at the start. */
  readonly recovered: string | null;
  readonly backups: BackupNotebook;
  readonly drafts: Drafts;
  readonly #name: string;
  readonly #copies: TwoCopies;
  readonly #db: BookDatabase;
  readonly #supersededCalls: Set<() => void>;
  readonly #damaged = new Map<string, DamagedRow>();
  /** Sittings of the drills begun or read in this tab, so that a pass can be written to both copies at once. */
  readonly #sittingOfDrill = new Map<string, string>();

  private constructor(
    name: string,
    { copies, restored }: Awaited<ReturnType<typeof TwoCopies.join>>,
    superseded: Set<() => void>,
  ) {
    this.#name = name;
    this.#copies = copies;
    this.#db = copies.db;
    this.backups = new BackupNotebook(copies.db);
    this.drafts = new Drafts(copies.db, copies.copy);
    this.#supersededCalls = superseded;
    this.recovered = restored && recoveredSentence(restored);
  }

  /** Opens the book of a name, or begins one. Rejects with a StoreTrouble in plain words. */
  static async open(name = BOOK_NAME): Promise<BookStore> {
    const superseded = new Set<() => void>();
    const db = await openDatabase(name, () => superseded.forEach((call) => call()));
    return new BookStore(name, await TwoCopies.join(name, db), superseded);
  }

  /** Of the database, for the practice worker to open. */
  get name(): string {
    return this.#name;
  }

  get secondCopy(): SecondCopyState {
    return this.#copies.state;
  }

  /** How many damaged rows have been met so far by reading. */
  get damaged(): number {
    return this.#damaged.size;
  }

  /**
   * Everything that is set aside, the damaged rows met so far among them, after the second copy was asked for whole ones;
   * `said` is a sentence when something is there that was not before.
   */
  setAside(): Promise<{ rows: AsideRow[]; said: string | null }> {
    const db = this.#db;
    return this.#copies.locked(async () => {
      const met = [...this.#damaged.values()];
      const added = await inPlainWords(() =>
        db.transaction('rw', db.meta, async () => await keepAside(db, met)),
      );
      let restored = 0;
      if (added > 0 && this.#copies.copy) {
        const { restoreDamaged } = await import('./mend');
        restored = await restoreDamaged(db, this.#copies.copy);
      }
      const rows = await inPlainWords(() => db.transaction('r', db.tables, async () => await listAside(db)));
      return { rows, said: asideSentence(added, restored) };
    });
  }

  /** Removes one of them for good. */
  async removeAside(row: AsideRow): Promise<void> {
    this.#damaged.delete(`${row.table}/${row.id}`);
    await this.#copies.change(
      TABLE_NAMES,
      () => dropAside(this.#db, row),
      () => Promise.resolve(),
    );
  }

  // --- tunes, sittings, settings ---------------------------------------------------------------------------

  /** Every tune, deleted ones included. */
  async tunes(): Promise<Tune[]> {
    return this.#whole('tunes', await this.#read(() => this.#db.tunes.toArray()));
  }

  /** Rejects with a StoreTrouble that names the fault when the tune is not one. */
  async putTune(tune: Tune): Promise<void> {
    await this.#changeTune((rows) => rows.put(tune));
  }

  /** Changes a tune as the book holds it, in one transaction, so that of two tabs neither undoes the other's edit. Rejects as `putTune`. */
  async updateTune(id: string, change: (tune: Tune) => Tune): Promise<void> {
    await this.#changeTune((rows) => rows.change(id, change));
  }

  /** Every sealed sitting, in the order of its id, which is that of time. */
  async sittings(): Promise<SealedSitting[]> {
    return this.#whole('sittings', await this.#read(() => this.#db.sittings.toArray()));
  }

  /** Meets those of the sealed sittings that are damaged. */
  async lookAt(ids: readonly string[]): Promise<void> {
    this.#whole('sittings', await this.#read(() => this.#db.sittings.bulkGet([...ids])));
  }

  /** The newest sealed sittings with a drill on a tune, at most so many. */
  sittingsOf(tuneId: string, most: number): Promise<SealedSitting[]> {
    return this.#read(() => newestOf(this.#db, tuneId, most));
  }

  /** How often tunes or sealed sittings have changed, in any tab. */
  logRevision(): Promise<number> {
    return inPlainWords(() => readLogRevision(this.#db));
  }

  async settings(): Promise<SettingRow[]> {
    return this.#whole('settings', await this.#read(() => this.#db.settings.toArray()));
  }

  async putSetting<Name extends SettingName>(row: SettingRowOf<Name>): Promise<void> {
    if (!isSettingRow(row)) throw damagedTrouble('setting', [say.wrongSetting(row.key)]);
    await this.#copies.change(
      ['settings'],
      async () => {
        await keepAsideBefore(this.#db, { settings: [row.key] });
        await this.#db.settings.put(row);
        return this.#db.settings.toArray();
      },
      (rows, copy) => copy.writeSettings(rows),
    );
  }

  // --- the open sitting ------------------------------------------------------------------------------------

  async openSitting(): Promise<OpenSitting | null> {
    const { sitting: open, drills, passes } = this.#db;
    const found = await inPlainWords(() =>
      this.#db.transaction('r', [open, drills, passes], async () => await readOpen(this.#db)),
    );
    for (const { id, sittingId } of found?.drills ?? []) this.#sittingOfDrill.set(id, sittingId);
    return found;
  }

  /**
   * The open sitting, which another tab may have begun; or this one, begun now, where none is open. One that `isOver` is
   * sealed first, as of the last thing done in it.
   */
  async joinSitting(sitting: Sitting, isOver: (open: OpenSitting) => boolean): Promise<OpenSitting> {
    if (!isSitting(sitting)) throw damagedTrouble('sitting', [say.wrong.sitting]);
    return await this.#copies.locked(async () => {
      const open = await this.openSitting();
      if (open && (open.sitting.id === sitting.id || !isOver(open))) return open;
      if (open) await this.#sealUnderLock();
      await inPlainWords(() => this.#db.sitting.add({ slot: 'open', sitting }));
      await this.#copies.mirror((copy) => copy.noteSitting(sitting));
      return { sitting, drills: [], log: [] };
    });
  }

  async beginDrill(drill: Drill): Promise<void> {
    if (!isDrill(drill)) throw damagedTrouble('drill', [say.wrong.drill]);
    const { sitting: open, drills, passes } = this.#db;
    await inPlainWords(() =>
      this.#db.transaction('rw', [open, drills, passes], async () => {
        const row = await open.get('open');
        if (row?.sitting.id !== drill.sittingId) throw closedElsewhere();
        await addToOpen(this.#db, [drill], []);
      }),
    );
    this.#sittingOfDrill.set(drill.id, drill.sittingId);
    await this.#copies.mirror((copy) => copy.noteDrill(drill));
  }

  /**
   * Writes one entry of the log. The same entry twice is one. An entry of a sitting that was sealed meanwhile goes into
   * the sealed one.
   */
  async record(entry: LogEntry): Promise<void> {
    if (!isEntry(entry)) throw damagedTrouble('mark', [say.wrong.mark]);
    const sittingId = this.#sittingOfDrill.get(entry.drillId);
    const noted = sittingId && this.#copies.mirror((copy) => copy.noteEntry(sittingId, entry));
    const [foundId] = await Promise.all([inPlainWords(() => this.#addEntry(entry)), noted]);
    if (foundId === null) await this.#recordLate(entry);
    else if (!sittingId) {
      this.#sittingOfDrill.set(entry.drillId, foundId);
      await this.#copies.mirror((copy) => copy.noteEntry(foundId, entry));
    }
    // nobody waits for it: it may be long, and says by itself how it went
    void this.#copies.mendCopy();
  }

  /** The id of the entry's sitting, or `null` when the open one has no such drill. */
  #addEntry(entry: LogEntry): Promise<string | null> {
    const { drills, passes } = this.#db;
    return this.#db.transaction('rw', [drills, passes], async () => {
      const row = await drills.get({ id: entry.drillId });
      if (!row) return null;
      if (entry.kind === 'correction' && !(await passes.get({ id: entry.passId }))) {
        throw damagedTrouble('newMark', [say.wrong.newMark]);
      }
      const known = await passes.get({ id: entry.id });
      if (!known) await passes.add({ id: entry.id, entry });
      return row.drill.sittingId;
    });
  }

  async #recordLate(entry: LogEntry): Promise<void> {
    const late = await this.#copies.change(
      ['sittings'],
      () => addLate(this.#db, entry),
      async (sitting, copy) => {
        if (sitting) await copy.appendSittings([sitting]);
      },
    );
    if (!late) throw closedElsewhere();
  }

  /** Changes what a sitting says of itself, as the book holds it at that moment: the open one, or one that was sealed meanwhile. */
  async updateSitting(id: string, change: SittingChange): Promise<void> {
    await this.#copies.locked(async () => {
      const { sitting: open } = this.#db;
      const sitting = await inPlainWords(() =>
        this.#db.transaction('rw', open, async () => {
          const row = await open.get('open');
          if (row?.sitting.id !== id) return null;
          const changed = changedSitting(row.sitting, change);
          await open.put({ slot: 'open', sitting: changed });
          return changed;
        }),
      );
      if (sitting) await this.#copies.mirror((copy) => copy.noteSitting(sitting));
      else await this.#updateSealed(id, change);
    });
  }

  async #updateSealed(id: string, change: SittingChange): Promise<void> {
    const { sittings } = this.#db;
    await this.#copies.changeUnderLock(
      ['sittings'],
      async () => {
        const sealed = await sittings.get(id);
        if (!isSealed(sealed)) throw closedElsewhere();
        // of two copies of a sitting a merge keeps what the one says of itself that ended later
        const changed = { ...changedSitting(sealed, change), endedAt: sealed.endedAt + 1 };
        await sittings.put(changed);
        return changed;
      },
      (changed, copy) => copy.appendSittings([changed]),
    );
  }

  /** Closes the open sitting: its record, or `null` when none was open or nothing was played in it. */
  seal(endedAt: number): Promise<SealedSitting | null> {
    return this.#copies.locked(() => this.#sealUnderLock(endedAt));
  }

  async #sealUnderLock(endedAt?: number): Promise<SealedSitting | null> {
    const sittingId = (await inPlainWords(() => this.#db.sitting.get('open')))?.sitting.id;
    const sealed = await this.#copies.changeUnderLock(
      ['sitting', 'drills', 'passes', 'sittings'],
      () => sealRows(this.#db, endedAt),
      async (sitting, copy) => {
        if (sitting) await copy.appendSittings([sitting]);
      },
    );
    if (sittingId) await this.#copies.mirror((copy) => copy.removeJournal(sittingId));
    return sealed;
  }

  // --- the whole book --------------------------------------------------------------------------------------

  /** Everything, the open sitting as if sealed. Damaged rows are left out (see `damaged`). */
  async readBook(): Promise<Book> {
    const [tunes, sittings, settings, open] = await Promise.all([
      this.tunes(),
      this.sittings(),
      this.settings(),
      this.openSitting(),
    ]);
    const book = { ...emptyBook(), tunes, sittings, settings };
    return open ? { ...book, sittings: [...sittings, sealOpen(open)].sort(byId) } : book;
  }

  /**
   * Merges a book in, whole or not at all, and counts what was new. Rejects with a StoreTrouble of kind `damaged`,
   * nothing changed, when any record is not sound.
   */
  async mergeIn(book: Book): Promise<Added> {
    const { checkedPieces } = await import('./merge-in');
    return this.mergePieces(checkedPieces(book));
  }

  /**
   * Merges checked records in, a piece of the book after the other, whole or not at all, and counts what was new. `pieces`
   * may throw to undo it all.
   */
  async mergePieces(pieces: BookPieces, how: MergeHow = {}): Promise<Added> {
    const { mergePieces } = await import('./merge-in');
    return this.#copies.locked(() => mergePieces(this.#copies, pieces, how));
  }

  /** Takes the demo's tunes and sittings out of both copies. */
  async removeDemo(): Promise<void> {
    const { tunes, sittings } = this.#db;
    await this.#copies.change(
      ['tunes', 'sittings'],
      async () => {
        const demoTunes = await tunes.filter(isDemo).primaryKeys();
        const demoSittings = await sittings.filter(isDemo).toArray();
        await tunes.bulkDelete(demoTunes);
        await sittings.bulkDelete(demoSittings.map(({ id }) => id));
        return { demoTunes, demoSittings };
      },
      ({ demoTunes, demoSittings }, copy) => copy.remove(demoTunes, demoSittings),
    );
  }

  /** Empties the book and both its copies. */
  async eraseAll(): Promise<void> {
    await this.#copies.erase();
    this.#sittingOfDrill.clear();
    this.#damaged.clear();
  }

  // --- small things ----------------------------------------------------------------------------------------

  /** Calls back after any tab, this one included, has changed records; the tables changed are named. Returns the way to stop. */
  onChange(call: (tables: ReadonlySet<TableName>) => void): () => void {
    const start = `idb://${this.#name}/`;
    const listen = (parts: Readonly<Record<string, unknown>>): void => {
      const names = Object.keys(parts)
        .filter((part) => part.startsWith(start))
        .map((part) => part.slice(start.length).split('/')[0] ?? '');
      // a page that the browser had put by for "back" has heard of nothing meanwhile, and Dexie names all
      const tables =
        'all' in parts
          ? new Set(TABLE_NAMES)
          : (new Set(names.filter((name) => name !== 'meta')) as Set<TableName>);
      if (tables.size > 0) call(tables);
    };
    Dexie.on.storagemutated.subscribe(listen);
    return () => Dexie.on.storagemutated.unsubscribe(listen);
  }

  /** Calls back when another tab upgrades or deletes the book: this one can write no more and is to be reloaded. */
  onSuperseded(call: () => void): () => void {
    this.#supersededCalls.add(call);
    return () => this.#supersededCalls.delete(call);
  }

  /** Asks the browser to keep the book for good: its answer, or `null` where it cannot be asked. */
  async persist(): Promise<boolean | null> {
    return (await this.#storage?.persist()) ?? null;
  }

  /** Whether it has promised so already; `null` where it cannot be asked. */
  async isPersisted(): Promise<boolean | null> {
    return (await this.#storage?.persisted()) ?? null;
  }

  get #storage(): StorageManager | null {
    const storage = navigator.storage as StorageManager | undefined;
    return storage && 'persist' in storage ? storage : null;
  }

  /** Resolves when the writes under way are done and the database is let go. */
  async close(): Promise<void> {
    await this.#copies.locked(() => Promise.resolve(this.#db.close()));
  }

  // --- inside ----------------------------------------------------------------------------------------------

  async #changeTune(work: (rows: TuneRow) => Promise<Tune>): Promise<Tune> {
    const rows = await tuneRows(this.#db);
    const mirror = (tune: Tune, copy: SecondCopy): Promise<void> => copy.writeTunes([tune]);
    return this.#copies.change(['tunes'], () => work(rows), mirror);
  }

  #read<T>(work: () => PromiseLike<T>): Promise<T> {
    return inPlainWordsPastLost(this.#db, work);
  }

  #whole<T>(table: 'tunes' | 'sittings' | 'settings', rows: readonly T[]): T[] {
    const damaged = damagedAmong(table, rows);
    if (damaged.length === 0) return [...rows];
    for (const one of damaged) this.#damaged.set(`${table}/${one.id}`, one);
    return rows.filter((row) => isWhole(table, row));
  }
}

function changedSitting<T extends Sitting>(sitting: T, change: SittingChange): T {
  const changed = { ...sitting, ...change(sitting) };
  if (!isSitting(changed)) throw damagedTrouble('change', [say.wrong.change]);
  return changed;
}
