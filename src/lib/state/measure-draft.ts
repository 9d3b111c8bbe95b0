import { readBareWriting, readMeasureDraft, type MeasureDraft } from '$lib/core/book/measure-draft';
import type { MeasureWriting } from '$lib/core/notation/measure-edit';
import type { Id } from '$lib/core/tune/tune';
import { app } from './app.svelte';

/** Where a measure stands: a tune, one of its layers, a measure of its board. */
export interface MeasureAt {
  tuneId: Id;
  layerId: Id;
  measureId: Id;
}

/** Under this and the place, the first versions kept drafts in localStorage, which a killed browser loses. */
const OLD_KEY = 'phrasewright-measure ';

/** What was written on a measure and not saved; one that an older version kept is taken over. */
export async function measureDraft(at: MeasureAt): Promise<MeasureDraft | null> {
  try {
    return readMeasureDraft(await app.draft(nameOf(at))) ?? (await takenOver(at));
  } catch {
    // the measure can be written all the same, and says so when what is written cannot be kept
    return null;
  }
}

/** Keeps the draft of one measure as it changes: one write at a time, and of several that wait only the newest. */
export class DraftKeeper {
  readonly #name: string;
  #next: { draft: MeasureDraft | null } | null = null;
  #writing: Promise<void> | null = null;

  constructor(at: MeasureAt) {
    this.#name = nameOf(at);
  }

  /** With `null`, none any more. Resolves once that, or something newer, is on disk; rejects when it could not be written. */
  keep(draft: MeasureDraft | null): Promise<void> {
    this.#next = { draft };
    this.#writing ??= this.#write().finally(() => (this.#writing = null));
    return this.#writing;
  }

  async #write(): Promise<void> {
    while (this.#next) {
      const { draft } = this.#next;
      this.#next = null;
      await app.keepDraft(this.#name, draft);
    }
  }
}

async function takenOver(at: MeasureAt): Promise<MeasureDraft | null> {
  const key = OLD_KEY + [at.tuneId, at.layerId, at.measureId].join(' ');
  const writing = oldWriting(key);
  if (!writing) return null;
  const draft: MeasureDraft = { writing, base: null };
  try {
    await app.keepDraft(nameOf(at), draft);
    localStorage.removeItem(key);
  } catch {
    // it stays where it is, and is taken over another time
  }
  return draft;
}

function oldWriting(key: string): MeasureWriting | null {
  try {
    return readBareWriting(JSON.parse(localStorage.getItem(key) ?? 'null'));
  } catch {
    // switched off, or no draft
    return null;
  }
}

function nameOf({ tuneId, layerId, measureId }: MeasureAt): string {
  return [tuneId, layerId, measureId].join('_');
}
