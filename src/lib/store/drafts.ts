import type { BookDatabase } from './database';
import type { SecondCopy } from './second-copy';
import { inPlainWords } from './trouble';

/** Before the name of each draft, in the meta table. */
const DRAFT = 'draft/';

export interface Draft {
  name: string;
  /** What was kept, unchecked. */
  kept: unknown;
}

/** What is written on this device and not saved, in both copies; no backup has it, and no merge. */
export class Drafts {
  readonly #db: BookDatabase;
  readonly #copy: SecondCopy | null;

  constructor(db: BookDatabase, copy: SecondCopy | null) {
    this.#db = db;
    this.#copy = copy;
  }

  /**
   * What was kept of one thing: under its own name, as the first versions did, and under that name with `_` and a window's
   * id. Windows that were opened later come first.
   */
  async of(thing: string): Promise<Draft[]> {
    const rows = await inPlainWords(() =>
      this.#db.meta
        .where('key')
        .startsWith(DRAFT + thing)
        .toArray(),
    );
    const found = new Map(rows.map(({ key, value }) => [key.slice(DRAFT.length), value]));
    // a database that was lost has no rows for what the copy may still have
    const inCopy = (await this.#copy?.readDrafts(thing).catch(() => null)) ?? [];
    for (const { name, kept } of inCopy) if (!found.has(name)) found.set(name, kept);
    return [...found]
      .filter(([name, kept]) => kept !== null && (name === thing || name.startsWith(`${thing}_`)))
      .sort(([a], [b]) => (a < b ? 1 : -1))
      .map(([name, kept]) => ({ name, kept }));
  }

  /** Keeps a draft, or with `null` none any more. Rejects with a StoreTrouble. */
  async keep(name: string, draft: unknown): Promise<void> {
    await inPlainWords(async () => {
      if (draft === null) await this.#db.meta.delete(DRAFT + name);
      else await this.#db.meta.put({ key: DRAFT + name, value: draft });
    });
    await this.#copy?.writeDraft(name, draft).catch(() => {
      // the database has it, which is read first
    });
  }
}
