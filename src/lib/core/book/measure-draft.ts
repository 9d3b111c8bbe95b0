import * as v from 'valibot';
import type { MeasureWriting } from '../notation/measure-edit';
import { BEATS_MAX, BEATS_MIN, LABELS_MAX } from '../tune/limits';
import { halves, listOf, melodySchema, strikesSchema } from './schema-words';
import { labelSchema } from './tune-schema';

const draftSchema = v.strictObject({
  beats: halves(BEATS_MIN, BEATS_MAX),
  strikes: v.nullable(strikesSchema),
  melody: v.exactOptional(melodySchema),
  labels: listOf(labelSchema, 0, LABELS_MAX),
});

/** A measure that was written and not saved, as it was kept; `null` for anything that is not one. */
export function readMeasureDraft(kept: unknown): MeasureWriting | null {
  const read = v.safeParse(draftSchema, kept);
  return read.success ? read.output : null;
}
