import type { BookCounts } from '$lib/core/book/book';
import { BOOK_NAME } from '$lib/store/book-name';
import { say } from '$lib/texts/backup-work';
import type { BackupJobs, BackupProgress } from '$lib/workers/backup-mail';
import { app } from './app.svelte';
import { backupJob } from './backup-job';
import { backupEnding, canPack, datedName } from './backup-name';
import { momentNow } from './clock';
import { canSend, download, send } from './hand-out-file';
import { sentence } from './sentence';
import { unsaved } from './unsaved.svelte';

/** A file that was checked: the book in it, still outside ours, or the damage in sentences. */
export type BackupOffer =
  | { ok: true; name: string; counts: BookCounts; exportedAt: number }
  | { ok: false; name: string; damage: readonly string[] };

/** What is going on. `share`: how much of it is done, 0 to 1. */
export interface BackupBusy {
  what: string;
  share: number;
  canStop: boolean;
}

/** What was asked for, in the section where the answer is to be said. */
export type BackupPlace = 'book' | 'erase';

/** A backup, and what notes that the learner has it. */
interface NotedFile {
  file: File;
  note: () => Promise<void>;
}

type Added = BackupJobs['merge']['result'];

/** How the last thing went. */
export type BackupOutcome =
  /** `leftOut`: damaged records that could not go in, in sentences. */
  | { kind: 'saved'; name: string; leftOut: readonly string[] }
  | { kind: 'sent' }
  | { kind: 'not sent'; name: string }
  | { kind: 'merged'; added: Added }
  | { kind: 'stopped' };

/**
 * Backups made, checked and merged by a worker, one at a time. The work goes on when the learner leaves the screen that began
 * it. What fails is in `failure`, and nothing was changed.
 */
export class BackupWork {
  busy: BackupBusy | null = $state.raw(null);
  offer: BackupOffer | null = $state.raw(null);
  outcome: (BackupOutcome & { place: BackupPlace }) | null = $state.raw(null);
  failure: { what: string; place: BackupPlace } | null = $state.raw(null);
  /** A file that is ready for the share sheet, which opens for a fresh touch only. */
  ready: NotedFile | null = $state.raw(null);

  #file: { file: File; checksum: string | null; exportedAt: number } | null = null;
  #work = new AbortController();

  /** The whole book as a download. */
  async save(place: BackupPlace): Promise<void> {
    await this.#attempt(place, async (signal) => {
      const { file, leftOut, note } = await this.#write(signal, canPack());
      download(file);
      await note();
      return { kind: 'saved', name: file.name, leftOut };
    });
  }

  /** The log of passes as a download, for a spreadsheet. */
  async saveLog(): Promise<void> {
    await this.#attempt('book', async (signal) => {
      const name = `${datedName(momentNow())}-log.csv`;
      const file = await backupJob(signal, 'log', { book: BOOK_NAME, name }, this.#tell);
      download(file);
      return { kind: 'saved', name, leftOut: [] };
    });
  }

  /** The whole book for the share sheet; it opens at once while the touch that asked for it counts, else `sendReady` opens it. */
  async prepareToSend(): Promise<void> {
    await this.#attempt('book', async (signal) => {
      const made = await this.#write(signal, canPack() && canSend(emptyFile(true)));
      if (navigator.userActivation?.isActive ?? true) return this.#send(made);
      this.ready = made;
      return null;
    });
  }

  async sendReady(): Promise<void> {
    const made = this.ready;
    if (made) await this.#attempt('book', () => this.#send(made));
  }

  async #send({ file, note }: NotedFile): Promise<BackupOutcome | null> {
    this.ready = null;
    const sent = await send(file);
    // whoever leaves the sheet has no backup
    if (sent === 'left') return null;
    await note();
    return sent === 'sent' ? { kind: 'sent' } : { kind: 'not sent', name: file.name };
  }

  /** Reads and checks a file without touching the book. */
  async check(file: File): Promise<void> {
    this.dismiss();
    await this.#attempt('book', async (signal) => {
      const { name } = file;
      const verdict = await backupJob(signal, 'check', { file }, this.#tell);
      if (verdict.ok) {
        const { checksum, exportedAt } = verdict;
        this.#file = { file, checksum, exportedAt };
      }
      this.offer = { ...verdict, name };
      return null;
    });
  }

  /** Merges in the file that was checked: one transaction or nothing. */
  async merge(): Promise<void> {
    const checked = this.#file;
    if (!checked) return;
    await this.#attempt('book', async (signal) => {
      const added = await app.changeBeside(() =>
        backupJob(signal, 'merge', { book: BOOK_NAME, ...checked }, this.#tell),
      );
      await unsaved.refresh();
      this.dismiss();
      return { kind: 'merged', added };
    });
  }

  dismiss(): void {
    this.offer = null;
    this.#file = null;
  }

  /** Calls off what is going on. */
  stop(): void {
    this.#work.abort();
  }

  async #write(signal: AbortSignal, isPacked: boolean): Promise<NotedFile & { leftOut: readonly string[] }> {
    const now = momentNow();
    const name = datedName(now) + backupEnding(isPacked);
    const { written, note } = await unsaved.whileSaving(now, () =>
      backupJob(signal, 'save', { book: BOOK_NAME, now, name, isPacked }, this.#tell),
    );
    return { ...written, note };
  }

  readonly #tell = ({ stage, share }: BackupProgress): void => {
    this.busy = { what: say.stages[stage], share, canStop: stage !== 'copying' };
  };

  async #attempt(
    place: BackupPlace,
    work: (signal: AbortSignal) => Promise<BackupOutcome | null>,
  ): Promise<void> {
    if (this.busy) return;
    this.busy = { what: say.begins, share: 0, canStop: false };
    [this.failure, this.outcome] = [null, null];
    const { signal } = (this.#work = new AbortController());
    app.log.rest();
    try {
      const outcome = await work(signal);
      this.outcome = outcome && { ...outcome, place };
    } catch (error) {
      if (signal.aborted) this.outcome = { kind: 'stopped', place };
      else this.failure = { what: sentence(error), place };
    } finally {
      this.busy = null;
    }
  }
}

/** True where the device has a share sheet that says that it takes backups. */
export function canSendBackup(): boolean {
  return (canPack() && canSend(emptyFile(true))) || canSend(emptyFile(false));
}

function emptyFile(isPacked: boolean): File {
  const type = isPacked ? 'application/gzip' : 'application/json';
  return new File(['{}'], `phrasewright${backupEnding(isPacked)}`, { type });
}

export const backup = new BackupWork();
