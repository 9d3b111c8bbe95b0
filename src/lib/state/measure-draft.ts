import { readMeasureDraft } from '$lib/core/book/measure-draft';
import type { MeasureWriting } from '$lib/core/notation/measure-edit';
import type { Id } from '$lib/core/tune/tune';

/** Where a measure stands: a tune, one of its layers, a measure of its board. */
export interface MeasureAt {
  tuneId: Id;
  layerId: Id;
  measureId: Id;
}

/** Measures that were written and not saved, kept on the device: a closed or killed tab loses none. */
const KEY = 'phrasewright-measure ';

export function keepMeasureDraft(at: MeasureAt, writing: MeasureWriting): void {
  try {
    localStorage.setItem(keyOf(at), JSON.stringify(writing));
  } catch {
    // full or switched off: what is written is safe once it is saved
  }
}

export function forgetMeasureDraft(at: MeasureAt): void {
  try {
    localStorage.removeItem(keyOf(at));
  } catch {
    // switched off: nothing was kept either
  }
}

export function measureDraft(at: MeasureAt): MeasureWriting | null {
  try {
    return readMeasureDraft(JSON.parse(localStorage.getItem(keyOf(at)) ?? 'null'));
  } catch {
    return null;
  }
}

function keyOf({ tuneId, layerId, measureId }: MeasureAt): string {
  return `${KEY}${tuneId} ${layerId} ${measureId}`;
}
