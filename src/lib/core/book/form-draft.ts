import * as v from 'valibot';
import { METERS } from '../rhythm/meter';
import { FITTED_BEATS_MAX, BEATS_MIN, CAPO_MAX, LABELS_MAX } from '../tune/limits';
import type { TuneDraft } from '../tune/make-tune';
import {
  halves,
  idSchema,
  listOf,
  melodySchema,
  strikesSchema,
  tuningSchema,
  wholeWithin,
} from './schema-words';
import { labelSchema, pickupSchema } from './tune-schema';

/** What is written on the screen that adds tunes: the form, and each of its fields of text that is read as a whole. */
export interface AddDraft {
  tune: TuneDraft;
  tab: string;
  pasted: string;
  titles: string;
}

/** A tune that is being edited, as it was when that was begun, and the tab typed for it. */
export interface EditDraft {
  draft: TuneDraft;
  base: TuneDraft;
  tab: string;
}

const measureSchema = v.strictObject({
  beats: halves(BEATS_MIN, FITTED_BEATS_MAX),
  strikes: v.nullable(strikesSchema),
  melody: v.exactOptional(melodySchema),
  labels: v.exactOptional(listOf(labelSchema, 0, LABELS_MAX)),
  sameAs: v.nullable(v.strictObject({ part: v.string(), index: v.number() })),
  id: v.exactOptional(idSchema),
  figureId: v.exactOptional(idSchema),
});

/** The words and the goal may be as wrong as a half-filled form has them: the form says so. */
const tuneDraftSchema = v.strictObject({
  title: v.string(),
  tuning: tuningSchema,
  capo: wholeWithin(0, CAPO_MAX),
  spike: wholeWithin(0, CAPO_MAX),
  key: v.string(),
  meter: v.picklist(METERS),
  // in a file a number that is none is `null`
  goalTempo: v.fallback(v.number(), NaN),
  form: v.string(),
  parts: v.array(v.strictObject({ name: v.string(), measures: v.array(measureSchema) })),
  pickup: v.nullable(pickupSchema),
});

const addSchema = v.strictObject({
  tune: tuneDraftSchema,
  tab: v.string(),
  pasted: v.string(),
  titles: v.string(),
});
const editSchema = v.strictObject({ draft: tuneDraftSchema, base: tuneDraftSchema, tab: v.string() });

/** A draft as it was kept; `null` for anything that is not one. */
export function readAddDraft(kept: unknown): AddDraft | null {
  const read = v.safeParse(addSchema, kept);
  return read.success ? read.output : null;
}

/** A draft as it was kept; `null` for anything that is not one. */
export function readEditDraft(kept: unknown): EditDraft | null {
  const read = v.safeParse(editSchema, kept);
  return read.success ? read.output : null;
}
