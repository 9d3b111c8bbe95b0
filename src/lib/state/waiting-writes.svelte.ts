import type { SettingRow } from '$lib/core/book/settings';

/** Something that could not be written and waits on this page: how many of what, and why. */
export interface WaitingWrite {
  kind: 'mark' | 'setting' | 'draft' | 'note';
  count: number;
  why: string;
  /** Those that wait, for a file of them. */
  settings?: readonly SettingRow[];
  /** Tries again, and keeps or drops it here by how that went. */
  write: () => Promise<unknown>;
}

/** The first try again comes so long after a failure, each one after it twice as late as the one before, up to the longest. */
const FIRST_MS = 5000;
const LONGEST_MS = 300_000;

/**
 * What is not on disk yet: it is tried again by itself, now and then and whenever there is a sign of room, until it is written.
 * Those who write keep here what failed, each under one name, and drop it when it is on disk.
 */
export class WaitingWrites {
  #waiting: readonly (WaitingWrite & { name: string })[] = $state.raw([]);
  #delayMs = FIRST_MS;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #isTrying = false;

  get all(): readonly WaitingWrite[] {
    return this.#waiting;
  }

  /** Why what is kept under a name is not on disk; `null`: nothing of it waits. */
  whyOf(name: string): string | null {
    return this.#named(name)?.why ?? null;
  }

  keep(name: string, write: WaitingWrite): void {
    this.#waiting = [...this.#waiting.filter((other) => other.name !== name), { ...write, name }];
    this.#later();
  }

  drop(name: string): void {
    if (!this.#named(name)) return;
    this.#waiting = this.#waiting.filter((other) => other.name !== name);
    // where one thing found room another may
    void this.tryAll();
  }

  /** Forgets everything, as when the whole book is erased. */
  forget(): void {
    this.#waiting = [];
  }

  /** There may be room again. Never rejects. */
  async tryAll(): Promise<void> {
    if (this.#isTrying || this.#waiting.length === 0) return;
    this.#isTrying = true;
    clearTimeout(this.#timer);
    this.#timer = undefined;
    // those who keep something here say why it failed
    for (const { write } of this.all) await write().catch(() => undefined);
    this.#isTrying = false;
    this.#delayMs = this.#waiting.length === 0 ? FIRST_MS : Math.min(LONGEST_MS, 2 * this.#delayMs);
    this.#later();
  }

  #named(name: string): WaitingWrite | undefined {
    return this.#waiting.find((write) => write.name === name);
  }

  #later(): void {
    if (this.#isTrying || this.#timer !== undefined || this.#waiting.length === 0) return;
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      void this.tryAll();
    }, this.#delayMs);
  }
}

export const waitingWrites = new WaitingWrites();
