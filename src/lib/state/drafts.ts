import { heldLocks } from '$lib/offline/held-locks';
import type { Draft } from '$lib/store/drafts';
import { app } from './app.svelte';
import { holdLock } from './hold-lock';
import { nextId } from './ids';

/** This page among the windows of the app: each keeps what is written in it under a name of its own. */
const WINDOW = nextId();
/** Before the name of a draft in the name of the lock that says that a window has it in hand. */
const IN_HAND = 'phrasewright-draft ';

/** What was written of one thing and not saved, but for what another window has in hand at this moment. */
export async function draftsLeft(thing: string): Promise<Draft[]> {
  const [drafts, held] = await Promise.all([app.draftsOf(thing), heldLocks()]);
  return drafts.filter(({ name }) => name === ownName(thing) || !held.includes(IN_HAND + name));
}

/** Keeps what is written of one thing in this window as it changes: one write at a time, and of several that wait only the newest. */
export class DraftKeeper<Written> {
  readonly #name: string;
  /** Drafts of other windows that are in this one, and go when it is on disk. */
  #takenOver: string[] = [];
  #next: { draft: Written | null } | null = null;
  #writing: Promise<void> | null = null;
  #release: Promise<(() => void) | null> | null = null;

  constructor(thing: string) {
    this.#name = ownName(thing);
  }

  /** From now on the draft is in hand here, and no other window takes it over. */
  hold(): void {
    this.#release ??= holdLock(IN_HAND + this.#name);
  }

  /** Whoever opens the thing next, in whatever window, goes on with the draft. */
  letGo(): void {
    const held = this.#release;
    this.#release = null;
    void held?.then((release) => release?.());
  }

  /** What a draft holds is kept under this window's name from the next `keep` on. */
  takeOver({ name }: Draft): void {
    if (name !== this.#name) this.#takenOver.push(name);
  }

  /** With `null`, none any more. Resolves once that, or something newer, is on disk; rejects when it could not be written. */
  keep(draft: Written | null): Promise<void> {
    this.#next = { draft };
    this.#writing ??= this.#write().finally(() => (this.#writing = null));
    return this.#writing;
  }

  async #write(): Promise<void> {
    while (this.#next) {
      const { draft } = this.#next;
      this.#next = null;
      await app.keepDraft(this.#name, draft);
      for (const name of this.#takenOver.splice(0)) await app.keepDraft(name, null);
    }
  }
}

function ownName(thing: string): string {
  return `${thing}_${WINDOW}`;
}
