import type { LogEntry } from '$lib/core/practice/records';
import type { OpenSitting } from '$lib/store/book-store';
import { app, sentence } from './app.svelte';

/** An entry that is not on disk, and the sitting as the page knew it when it was made. */
interface Unwritten {
  entry: LogEntry;
  open: OpenSitting | null;
}

/**
 * Writes entries of the log one after the other. What cannot be written is kept, in order, and written again on `retry`:
 * a mark is never lost while the page is open, whatever screen the learner goes to.
 */
class MarkWriter {
  /** Why the oldest waiting entry is not on disk. */
  trouble: string | null = $state(null);
  #unwritten: readonly Unwritten[] = $state.raw([]);
  #writing: Promise<void> = Promise.resolve();
  #open: OpenSitting | null = null;
  #onTrouble: () => void = () => undefined;

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
    this.trouble = null;
    this.#writing = this.#writing.then(() => this.#flush());
    return this.#writing;
  }

  /** Tries again what waits: `true` when nothing does any more. */
  async clear(): Promise<boolean> {
    if (this.waiting > 0) await this.retry();
    return this.waiting === 0;
  }

  /** Hands the waiting entries out as a file that can be merged in later, for a device that takes nothing more. */
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
    download(waitingFile(app.tunes, sittings, entries));
  }

  /** Forgets what waits, as when the whole book is erased. */
  forget(): void {
    this.#unwritten = [];
    this.trouble = null;
  }

  async #flush(): Promise<void> {
    if (this.trouble !== null) return;
    try {
      for (let next = this.#unwritten[0]; next; next = this.#unwritten[0]) {
        await app.record(next.entry);
        this.#unwritten = this.#unwritten.filter((other) => other !== next);
      }
    } catch (error) {
      this.trouble = sentence(error);
      this.#onTrouble();
    }
  }
}

/** The marks of this page on their way to the book. */
export const marks = new MarkWriter();
