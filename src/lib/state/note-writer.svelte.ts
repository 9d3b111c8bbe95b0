import type { Id } from '$lib/core/tune/tune';
import { app } from './app.svelte';
import { sentence } from './sentence';
import { waitingWrites } from './waiting-writes.svelte';

/** A learner who pauses for so long in writing has it kept: the phone may close the page without a word. */
const PAUSE_MS = 1000;

/** A sitting's line of notes under the learner's hand: what could not be kept stays in the field, and is tried again. */
export class NoteWriter {
  readonly #sittingId: Id | null;
  /** What is written and not kept, and the note from which it began. */
  #draft: { before: string; mine: string } | null = $state.raw(null);
  #pause: ReturnType<typeof setTimeout> | undefined;

  constructor(sittingId: Id | null) {
    this.#sittingId = sittingId;
  }

  get text(): string {
    return this.#draft?.mine ?? this.#kept;
  }

  get #kept(): string {
    const sitting = app.sitting?.sitting;
    return sitting && sitting.id === this.#sittingId ? sitting.note : '';
  }

  write(mine: string): void {
    this.#draft = { before: this.#draft?.before ?? this.#kept, mine };
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => {
      // what could not be kept is said when the learner leaves the field
      this.#keepSoFar().catch(() => undefined);
    }, PAUSE_MS);
  }

  /** Keeps what is written so far; in the field it stays as it stands, for the learner writes on. */
  async #keepSoFar(): Promise<void> {
    const draft = this.#draft;
    if (!draft || this.#sittingId === null) return;
    await app.setNote(this.#sittingId, draft.before, draft.mine);
    if (this.#draft) this.#draft = { ...this.#draft, before: draft.mine.trim() };
  }

  /** Resolves when what is written is on disk. Rejects with a StoreTrouble that says why it is not. */
  async keep(): Promise<void> {
    clearTimeout(this.#pause);
    const name = `note ${String(this.#sittingId)}`;
    const mine = this.#draft?.mine;
    try {
      await this.#keepSoFar();
    } catch (error) {
      waitingWrites.keep(name, { kind: 'note', count: 1, why: sentence(error), write: () => this.keep() });
      throw error;
    }
    if (this.#draft?.mine === mine) this.#draft = null;
    waitingWrites.drop(name);
  }
}
