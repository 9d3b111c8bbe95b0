import type { Id } from '$lib/core/tune/tune';
import { app, sentence } from './app.svelte';
import { waitingWrites } from './waiting-writes.svelte';

/** A sitting's line of notes under the learner's hand: what could not be kept stays in the field, and is tried again. */
export class NoteWriter {
  readonly #sittingId: Id | null;
  /** What is written and not kept, and the note from which it began. */
  #draft: { before: string; mine: string } | null = $state.raw(null);

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
  }

  /** Resolves when what is written is on disk. Rejects with a StoreTrouble that says why it is not. */
  async keep(): Promise<void> {
    const draft = this.#draft;
    if (!draft || this.#sittingId === null) return;
    const name = `note ${this.#sittingId}`;
    try {
      await app.setNote(this.#sittingId, draft.before, draft.mine);
    } catch (error) {
      waitingWrites.keep(name, { kind: 'note', count: 1, why: sentence(error), write: () => this.keep() });
      throw error;
    }
    if (this.#draft === draft) this.#draft = null;
    waitingWrites.drop(name);
  }
}
