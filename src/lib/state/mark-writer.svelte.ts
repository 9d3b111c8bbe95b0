import type { LogEntry } from '$lib/core/practice/records';
import type { OpenSitting } from '$lib/store/book-store';
import { app } from './app.svelte';
import { sentence } from './sentence';
import { waitingWrites } from './waiting-writes.svelte';

/** What waits here, among all that waits. */
const NAME = 'marks';

/** An entry that is not on disk, and the sitting as the page knew it when it was made. */
interface Unwritten {
  entry: LogEntry;
  open: OpenSitting | null;
}

/**
 * Writes entries of the log one after the other. What cannot be written is kept, in order, and tried again (waiting-writes):
 * a mark is never lost while the page is open, whatever screen the learner goes to.
 */
class MarkWriter {
  #unwritten: readonly Unwritten[] = $state.raw([]);
  #writing: Promise<void> = Promise.resolve();
  #open: OpenSitting | null = null;
  #onTrouble: () => void = () => undefined;

  /** Why the oldest waiting entry is not on disk. */
  get trouble(): string | null {
    return waitingWrites.whyOf(NAME);
  }

  /** From now on this hears that an entry could not be written. */
  tell(onTrouble: () => void): void {
    this.#onTrouble = onTrouble;
  }

  /** Entries that are not on disk yet. */
  get waiting(): number {
    return this.#unwritten.length;
  }

  write(entry: LogEntry): void {
    this.#open = app.sitting ?? this.#open;
    this.#unwritten = [...this.#unwritten, { entry, open: this.#open }];
    this.#writing = this.#writing.then(() => this.#flush());
  }

  /** Resolves when everything handed in so far is on disk, or has failed. */
  settled(): Promise<void> {
    return this.#writing;
  }

  retry(): Promise<void> {
    this.#writing = this.#writing.then(() => this.#flush());
    return this.#writing;
  }

  /** Tries again what waits: `true` when nothing does any more. */
  async clear(): Promise<boolean> {
    if (this.waiting > 0) await this.retry();
    return this.waiting === 0;
  }

  /** Hands the waiting entries and settings out as a file that can be merged in later, for a device that takes nothing more. */
  async saveToFile(): Promise<void> {
    const [{ waitingFile }, { download }] = await Promise.all([
      import('./rescue'),
      import('./hand-out-file'),
    ]);
    const known = [...this.#unwritten.map(({ open }) => open), app.sitting].filter((open) => open !== null);
    // the last word on each
    const sittings = known.filter(
      ({ sitting }, index) =>
        index === known.findLastIndex(({ sitting: { id } }: OpenSitting) => id === sitting.id),
    );
    const entries = this.#unwritten.map(({ entry }) => entry);
    const settings = waitingWrites.all.flatMap((write) => write.settings ?? []);
    download(waitingFile(app.tunes, sittings, entries, settings));
  }

  /** Forgets what waits, as when the whole book is erased. */
  forget(): void {
    this.#unwritten = [];
    waitingWrites.drop(NAME);
  }

  async #flush(): Promise<void> {
    try {
      for (let next = this.#unwritten[0]; next; next = this.#unwritten[0]) {
        await app.record(next.entry);
        this.#unwritten = this.#unwritten.filter((other) => other !== next);
      }
      waitingWrites.drop(NAME);
    } catch (error) {
      const why = sentence(error);
      waitingWrites.keep(NAME, { kind: 'mark', count: this.waiting, why, write: () => this.retry() });
      this.#onTrouble();
    }
  }
}

/** The marks of this page on their way to the book. */
export const marks = new MarkWriter();
