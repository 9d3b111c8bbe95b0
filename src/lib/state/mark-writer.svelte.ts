import type { LogEntry } from '$lib/core/practice/records';
import { app, sentence } from './app.svelte';

/**
 * Writes entries of the log one after the other. What cannot be written is kept, in order, and written again on `retry`:
 * a mark is never lost while the page is open.
 */
export class MarkWriter {
  /** Why the oldest waiting entry is not on disk. */
  trouble: string | null = $state(null);
  #unwritten: readonly LogEntry[] = $state.raw([]);
  #writing: Promise<void> = Promise.resolve();
  readonly #onTrouble: () => void;

  constructor(onTrouble: () => void) {
    this.#onTrouble = onTrouble;
  }

  /** Entries that are not on disk yet. */
  get waiting(): number {
    return this.#unwritten.length;
  }

  write(entry: LogEntry): void {
    this.#unwritten = [...this.#unwritten, entry];
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

  /** Hands the waiting entries out as a file that can be merged in later, for a device that takes nothing more. */
  async saveToFile(): Promise<void> {
    const [{ waitingFile }, { download }] = await Promise.all([
      import('./rescue'),
      import('./hand-out-file'),
    ]);
    if (app.sitting) download(waitingFile(app.tunes, app.sitting, this.#unwritten));
  }

  async #flush(): Promise<void> {
    if (this.trouble !== null) return;
    try {
      for (let entry = this.#unwritten[0]; entry; entry = this.#unwritten[0]) {
        await app.record(entry);
        this.#unwritten = this.#unwritten.slice(1);
      }
    } catch (error) {
      this.trouble = sentence(error);
      this.#onTrouble();
    }
  }
}
