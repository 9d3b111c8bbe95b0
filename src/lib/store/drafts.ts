import type { BookDatabase } from './database';
import type { SecondCopy } from './second-copy';
import { inPlainWords } from './trouble';

/** Before the name of each draft, in the meta table. */
const DRAFT = 'draft/';

/** What is written on this device and not saved, in both copies; no backup has it, and no merge. */
export class Drafts {
  readonly #db: BookDatabase;
  readonly #copy: SecondCopy | null;

  constructor(db: BookDatabase, copy: SecondCopy | null) {
    this.#db = db;
    this.#copy = copy;
  }

  /** What was kept under a name, unchecked; `null` for nothing. */
  async read(name: string): Promise<unknown> {
    const row = await inPlainWords(() => this.#db.meta.get(DRAFT + name));
    if (row) return row.value;
    // a database that was lost has no row for what the copy may still have
    return (await this.#copy?.readDraft(name).catch(() => null)) ?? null;
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
