import * as v from 'valibot';
import type { MeasureWriting } from '../notation/measure-edit';
import { FITTED_BEATS_MAX, BEATS_MIN, LABELS_MAX } from '../tune/limits';
import { halves, listOf, melodySchema, strikesSchema } from './schema-words';
import { labelSchema } from './tune-schema';

/** What a learner has written on a measure and not saved. */
export interface MeasureDraft {
  /** `null` when nothing but `asides` is kept. */
  writing: MeasureWriting | null;
  /** What the book held when it was begun, as `baseOf` says it; `null` when that is not known. */
  base: string | null;
  /** What else was written there and not saved: it did not fit what the book held, or came from another window. */
  asides: readonly MeasureWriting[];
}

const writingSchema = v.strictObject({
  beats: halves(BEATS_MIN, FITTED_BEATS_MAX),
  strikes: v.nullable(strikesSchema),
  melody: v.exactOptional(melodySchema),
  labels: listOf(labelSchema, 0, LABELS_MAX),
});
const draftSchema = v.strictObject({
  writing: v.nullable(writingSchema),
  base: v.nullable(v.string()),
  asides: v.exactOptional(v.array(writingSchema), []),
  /** The one that the first versions kept. */
  aside: v.exactOptional(writingSchema),
});

/** A draft as it was kept; `null` for anything that is not one. */
export function readMeasureDraft(kept: unknown): MeasureDraft | null {
  const read = v.safeParse(draftSchema, kept);
  if (!read.success) return null;
  const { aside, asides, ...draft } = read.output;
  return { ...draft, asides: aside ? [...asides, aside] : asides };
}

/** The writing alone, as the first versions kept it. */
export function readBareWriting(kept: unknown): MeasureWriting | null {
  const read = v.safeParse(writingSchema, kept);
  return read.success ? read.output : null;
}
