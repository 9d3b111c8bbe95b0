import { tunesSince } from '$lib/core/book/backup-due';
import { isDemo } from '$lib/core/book/demo';
import type { Tune } from '$lib/core/tune/tune';
import type { BookDatabase } from './database';
import { readStamp } from './stamp';
import { inPlainWords } from './trouble';

/** What this device knows of its backups. */
export interface BackupNotes {
  /** Sittings closed here since the last backup; without one, all. */
  sittings: number;
  /** When the last backup was made (Unix ms); `null`: never. */
  savedAt: number | null;
  /** How much was unsaved when the learner last said "not now"; 0 for never. */
  hushedAt: number;
}

/** A folder that the learner picked for the rolling copy, and the file in it without its ending. */
export interface RollingFolder {
  folder: FileSystemDirectoryHandle;
  fileName: string;
}

const NOTES = 'backup';
const FOLDER = 'backup folder';

/** The notes on backups, in the meta table. They are no part of the book: another device has other backups. */
export class BackupNotebook {
  readonly #db: BookDatabase;

  constructor(db: BookDatabase) {
    this.#db = db;
  }

  read(): Promise<BackupNotes> {
    return inPlainWords(() => readNotes(this.#db));
  }

  /** Notes a backup of what there was at an instant; `sittings` is how many were unsaved then. Those closed since still are. */
  async noteSaved(savedAt: number, sittings: number): Promise<void> {
    await this.#change((notes) => ({
      sittings: Math.max(0, notes.sittings - sittings),
      ...{ savedAt, hushedAt: 0 },
    }));
  }

  /** The learner does not want to hear of it until much more has come together. */
  async noteHushed(hushedAt: number): Promise<void> {
    await this.#change((notes) => ({ ...notes, hushedAt }));
  }

  async #change(change: (notes: BackupNotes) => BackupNotes): Promise<void> {
    const { meta, tunes, sittings } = this.#db;
    await inPlainWords(() =>
      this.#db.transaction('rw', [meta, tunes, sittings], async () => {
        await meta.put({ key: NOTES, value: change(await readNotes(this.#db)) });
      }),
    );
  }

  async folder(): Promise<RollingFolder | null> {
    const row = await inPlainWords(() => this.#db.meta.get(FOLDER));
    return (row?.value ?? null) as RollingFolder | null;
  }

  /**
   * Keeps the folder for the rolling copy, or forgets it. The file carries the name of this book, so that a book begun
   * anew never writes over the copy of the one before.
   */
  async keepFolder(folder: FileSystemDirectoryHandle | null): Promise<RollingFolder | null> {
    const { meta } = this.#db;
    if (!folder) {
      await inPlainWords(() => meta.delete(FOLDER));
      return null;
    }
    const [bookName = ''] = (await inPlainWords(() => readStamp(this.#db)))?.bookId.split('-') ?? [];
    const value: RollingFolder = { folder, fileName: `phrasewright-${bookName}` };
    await inPlainWords(() => meta.put({ key: FOLDER, value }));
    return value;
  }
}

/** In a book without notes, which was never backed up from here, every own sitting counts. */
async function readNotes(db: BookDatabase): Promise<BackupNotes> {
  return (await keptNotes(db)) ?? { sittings: await countOwn(db), savedAt: null, hushedAt: 0 };
}

async function countOwn(db: BookDatabase): Promise<number> {
  const hasDemo = (await db.tunes.filter(isDemo).count()) > 0;
  // going through the rows of a long book takes seconds, and only the demo makes it necessary
  return hasDemo ? db.sittings.filter((row) => !isDemo(row)).count() : db.sittings.count();
}

/** What was in no backup before one is merged in. To be called in a transaction over meta, tunes and sittings. */
export interface BeforeMerge {
  notes: BackupNotes;
  ownSittings: number;
  /** Own tunes that were in no backup. */
  tunes: readonly Tune[];
}

export async function lookBeforeMerge(db: BookDatabase): Promise<BeforeMerge> {
  const notes = await readNotes(db);
  const tunes = (await db.tunes.toArray()).filter((tune) => tunesSince([tune], notes.savedAt) > 0);
  return { notes, ownSittings: await countOwn(db), tunes };
}

/**
 * Notes that a backup made at an instant was merged in. What came with it is in that file: nobody who has just put a book back is
 * to be told that it is in no backup. `sittings` and `tuneIds`: of those here before, the ones that the file has just as they are.
 * Where it is not known which sittings were in no backup, as many as there can be.
 */
export async function noteMerged(
  db: BookDatabase,
  { notes, ownSittings, tunes }: BeforeMerge,
  inFile: { exportedAt: number; sittings: number; tuneIds: ReadonlySet<string> },
): Promise<void> {
  const hasTunes = tunes.every(({ id }) => inFile.tuneIds.has(id));
  const value: BackupNotes = {
    ...notes,
    sittings: Math.min(notes.sittings, Math.max(0, ownSittings - inFile.sittings)),
    savedAt: hasTunes ? Math.max(notes.savedAt ?? inFile.exportedAt, inFile.exportedAt) : notes.savedAt,
  };
  await db.meta.put({ key: NOTES, value });
}

/** `null` for none, and for damaged ones: then every sitting counts as in no backup. */
async function keptNotes(db: BookDatabase): Promise<BackupNotes | null> {
  const { sittings, savedAt, hushedAt } = ((await db.meta.get(NOTES))?.value ?? {}) as Partial<BackupNotes>;
  const isSound = [sittings, savedAt ?? 0, hushedAt].every(Number.isFinite);
  return isSound ? { sittings: sittings ?? 0, savedAt: savedAt ?? null, hushedAt: hushedAt ?? 0 } : null;
}

/** Counts a sitting that is being closed. To be called in a transaction over meta. */
export async function countUnsaved(db: BookDatabase): Promise<void> {
  const kept = await keptNotes(db);
  if (kept) await db.meta.put({ key: NOTES, value: { ...kept, sittings: kept.sittings + 1 } });
}
