import { readBareWriting, readMeasureDraft, type MeasureDraft } from '$lib/core/book/measure-draft';
import type { MeasureWriting } from '$lib/core/notation/measure-edit';
import type { Id } from '$lib/core/tune/tune';
import { DraftKeeper, draftsLeft } from './drafts';

/** Where a measure stands: a tune, one of its layers, a measure of its board. */
export interface MeasureAt {
  tuneId: Id;
  layerId: Id;
  measureId: Id;
}

/** What was written on a measure and not saved, what was begun last first, and what keeps it from now on. */
export interface LeftOnMeasure {
  drafts: readonly MeasureDraft[];
  keeper: DraftKeeper<MeasureDraft>;
}

/** Under this and the place, the first versions kept drafts in localStorage, which a killed browser loses. */
const OLD_KEY = 'phrasewright-measure ';

export async function leftOnMeasure(at: MeasureAt): Promise<LeftOnMeasure> {
  const thing = [at.tuneId, at.layerId, at.measureId].join('_');
  const keeper = new DraftKeeper<MeasureDraft>(thing);
  const drafts: MeasureDraft[] = [];
  try {
    for (const left of await draftsLeft(thing)) {
      const draft = readMeasureDraft(left.kept);
      if (!draft) continue;
      drafts.push(draft);
      keeper.takeOver(left);
    }
    if (drafts.length === 0) drafts.push(...(await takenOver(at, keeper)));
  } catch {
    // the measure can be written all the same, and says so when what is written cannot be kept
  }
  return { drafts, keeper };
}

/** The one that the first versions kept, once it is kept as those of today are. */
async function takenOver(at: MeasureAt, keeper: DraftKeeper<MeasureDraft>): Promise<MeasureDraft[]> {
  const key = OLD_KEY + [at.tuneId, at.layerId, at.measureId].join(' ');
  const writing = oldWriting(key);
  if (!writing) return [];
  const draft: MeasureDraft = { writing, base: null, asides: [] };
  try {
    await keeper.keep(draft);
    localStorage.removeItem(key);
  } catch {
    // it stays where it is, and is taken over another time
  }
  return [draft];
}

function oldWriting(key: string): MeasureWriting | null {
  try {
    return readBareWriting(JSON.parse(localStorage.getItem(key) ?? 'null'));
  } catch {
    // switched off, or no draft
    return null;
  }
}
