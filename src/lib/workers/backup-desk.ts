import { say } from '../texts/backup-work';
import { BookStore } from '../store/book-store';
import { openDatabase, type BookDatabase } from '../store/database';
import { pastLost } from '../store/lost-values';
import { exportText, logText, lookThrough, type Exported } from '../store/export-book';
import { blobOf, byteStream } from '../store/pack';
import { checkFile, piecesOf } from '../store/read-backup-file';
import type { BackupJobs, BackupProgress, BackupRequest, BackupVerb, WrittenBackup } from './backup-mail';

type Job<Verb extends BackupVerb> = BackupJobs[Verb]['job'];
type Result<Verb extends BackupVerb> = Promise<BackupJobs[Verb]['result']>;

/** Progress is told at most so often. */
const TELL_EVERY_MS = 100;

/** The worker's side: does one job, telling how far it is. Rejects with the signal's reason when it is called off. */
export class BackupDesk {
  readonly #signal: AbortSignal;
  readonly #tell: (progress: BackupProgress) => void;
  #toldAt = 0;

  constructor(signal: AbortSignal, tell: (progress: BackupProgress) => void) {
    this.#signal = signal;
    this.#tell = tell;
  }

  do({ verb, job }: BackupRequest): Result<BackupVerb> {
    switch (verb) {
      case 'save':
        return this.#save(job);
      case 'keep':
        return this.#keep(job);
      case 'check':
        return checkFile(job.file, this.#step('reading', job.file.size));
      case 'merge':
        return this.#merge(job);
      case 'log':
        return this.#log(job);
      case 'look':
        return withDatabase(job.book, (db) => lookThrough(db, () => this.#signal.throwIfAborted()));
    }
  }

  async #save({ book, now, name, isPacked }: Job<'save'>): Result<'save'> {
    const type = isPacked ? 'application/gzip' : 'application/json';
    return withDatabase(book, async (db) => {
      const { stream, exported } = this.#export(db, now, isPacked);
      const file = new File([await blobOf(stream, type)], name, { type });
      return { file, ...(await this.#readBack(file, await exported)) };
    });
  }

  async #keep({ book, now, name, isPacked, folder }: Job<'keep'>): Result<'keep'> {
    return withDatabase(book, async (db) => {
      const { stream, exported } = this.#export(db, now, isPacked);
      try {
        const handle = await folder.getFileHandle(name, { create: true });
        // the old file stands until the stream is at its end: the browser swaps the new one in as it is closed
        await stream.pipeTo(await handle.createWritable());
        return await this.#readBack(await handle.getFile(), await exported);
      } catch (error) {
        throw inFolderWords(error);
      }
    });
  }

  #export(db: BookDatabase, now: Job<'save'>['now'], isPacked: boolean) {
    const texts = exportText(db, now, this.#sittingStep());
    let tell: (exported: Exported) => void = () => undefined;
    const exported = new Promise<Exported>((resolve) => (tell = resolve));
    const watched = async function* (): AsyncGenerator<string> {
      tell(yield* texts);
    };
    return { stream: byteStream(watched(), isPacked), exported };
  }

  async #readBack(file: Blob, { counts, leftOut }: Exported): Promise<WrittenBackup> {
    const verdict = await checkFile(file, this.#step('reading back', file.size), true);
    return { counts, leftOut, damage: verdict.ok ? [] : verdict.damage };
  }

  async #log({ book, name }: Job<'log'>): Result<'log'> {
    const type = 'text/csv;charset=utf-8';
    return withDatabase(book, async (db) => {
      const texts = logText(db, this.#sittingStep());
      return new File([await blobOf(byteStream(texts, false), type)], name, { type });
    });
  }

  async #merge({ book, file, checksum, exportedAt }: Job<'merge'>): Result<'merge'> {
    const pieces = await piecesOf(file, checksum, this.#step('merging', file.size));
    const store = await BookStore.open(book);
    try {
      return await store.mergePieces(pieces, {
        backupOf: exportedAt,
        onCopied: (done, all) => this.#report({ stage: 'copying', share: done / Math.max(1, all) }),
      });
    } finally {
      await store.close();
    }
  }

  #sittingStep(): (done: number, all: number) => void {
    const step = this.#step('writing', 1);
    return (done, all) => step(done / Math.max(1, all));
  }

  /** Tells how much of a stage is done, and makes an end of it by throwing when the job was called off. */
  #step(stage: BackupProgress['stage'], all: number): (done: number) => void {
    return (done) => {
      this.#signal.throwIfAborted();
      this.#report({ stage, share: all > 0 ? done / all : 1 });
    };
  }

  #report(progress: BackupProgress): void {
    const now = performance.now();
    if (now - this.#toldAt < TELL_EVERY_MS) return;
    this.#toldAt = now;
    this.#tell(progress);
  }
}

/** What the file system says of a learner's folder, as a sentence (File System Standard; anything else as it is). */
function inFolderWords(error: unknown): unknown {
  if (!(error instanceof DOMException)) return error;
  const { name } = error;
  if (name === 'NotFoundError') return new Error(say.folderGone);
  if (name === 'NotAllowedError') return new Error(say.folderRefused);
  if (name === 'QuotaExceededError') return new Error(say.folderFull);
  if (name === 'NoModificationAllowedError' || name === 'InvalidStateError') return new Error(say.fileInUse);
  return error;
}

async function withDatabase<T>(name: string, work: (db: BookDatabase) => Promise<T>): Promise<T> {
  const db = await openDatabase(name, () => undefined);
  try {
    return await pastLost(db.backendDB(), () => work(db));
  } finally {
    db.close();
  }
}
