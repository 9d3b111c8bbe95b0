import { heldLocks } from '$lib/offline/held-locks';
import type { Draft } from '$lib/store/drafts';
import { app } from './app.svelte';
import { holdLock } from './hold-lock';
import { nextId } from './ids';
import { sentence } from './sentence';
import { waitingWrites } from './waiting-writes.svelte';

/** This page among the windows of the app: each keeps what is written in it under a name of its own. */
const WINDOW = nextId();
/** Before the name of a draft in the name of the lock that says that a window has it in hand. */
const IN_HAND = 'phrasewright-draft ';

/** Drafts of this window on their way to the disk, by name: of each the newest, `null` for none any more. */
const unwritten = new Map<string, unknown>();

/** What was written of one thing and not saved, on disk or not, but for what another window has in hand at this moment. */
export async function draftsLeft(thing: string): Promise<Draft[]> {
  const [drafts, held] = await Promise.all([app.draftsOf(thing), heldLocks()]);
  const name = ownName(thing);
  const free = drafts.filter((draft) => draft.name === name || !held.includes(IN_HAND + draft.name));
  if (!unwritten.has(name)) return free;
  const others = free.filter((draft) => draft.name !== name);
  const kept = unwritten.get(name);
  return kept === null ? others : [{ name, kept }, ...others];
}

/** Forgets what is not on disk, as when the whole book is erased. */
export function forgetDrafts(): void {
  unwritten.clear();
}

/** Keeps what is written of one thing in this window as it changes: one write at a time, and of several that wait only the newest. */
export class DraftKeeper<Written> {
  readonly #name: string;
  /** Drafts of other windows that are in this one, and go when it is on disk. */
  #takenOver: string[] = [];
  /** The last write that was asked for, over when it is done or has failed. */
  #turn: Promise<void> = Promise.resolve();
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

  /** Why the newest is not on disk; `null`: it is, or there is none. */
  get trouble(): string | null {
    return waitingWrites.whyOf(this.#waitingName);
  }

  /** With `null`, none any more. Resolves once that, or something newer, is on disk; rejects when it could not be written, and it waits. */
  keep(draft: Written | null): Promise<void> {
    unwritten.set(this.#name, draft);
    return this.#write();
  }

  /** In its turn; it finds nothing to do where the one before has written something as new. */
  #write(): Promise<void> {
    const turn = this.#turn.then(() => this.#writeNewest());
    this.#turn = turn.catch(() => undefined);
    return turn;
  }

  async #writeNewest(): Promise<void> {
    const name = this.#name;
    const draft = unwritten.get(name);
    if (draft === undefined) return;
    try {
      await app.keepDraft(name, draft);
      if (unwritten.get(name) === draft) unwritten.delete(name);
      for (let [taken] = this.#takenOver; taken !== undefined; [taken] = this.#takenOver) {
        await app.keepDraft(taken, null);
        this.#takenOver.shift();
      }
      waitingWrites.drop(this.#waitingName);
    } catch (error) {
      const why = sentence(error);
      waitingWrites.keep(this.#waitingName, { kind: 'draft', count: 1, why, write: () => this.#write() });
      throw error;
    }
  }

  get #waitingName(): string {
    return `draft ${this.#name}`;
  }
}

function ownName(thing: string): string {
  return `${thing}_${WINDOW}`;
}
