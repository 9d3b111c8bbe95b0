import * as v from 'valibot';
import { say } from '../../texts/damage';
import { say as sayRecord } from '../../texts/record-damage';
import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import type { Passage } from '../tune/passage';
import {
  CLIMBS,
  HANDS,
  OUTCOMES,
  type Correction,
  type Drill,
  type LogEntry,
  type Pass,
  type SealedSitting,
  type Sitting,
} from '../practice/records';
import * as limits from './limits';
import { sayAt } from './say-damage';
import {
  type Agrees,
  idSchema,
  listOf,
  momentFields,
  numberWithin,
  originSchema,
  repeated,
  type Same,
  textOf,
  timeSchema,
  tuningSchema,
  wholeWithin,
} from './schema-words';

export const passageSchema = v.variant('kind', [
  v.strictObject({ kind: v.literal('figure'), tuneId: idSchema, figureId: idSchema }),
  v.strictObject({
    kind: v.literal('seam'),
    tuneId: idSchema,
    fromFigureId: idSchema,
    toFigureId: idSchema,
  }),
  v.strictObject({
    kind: v.literal('phrase'),
    tuneId: idSchema,
    layerId: idSchema,
    fromMeasureId: idSchema,
    toMeasureId: idSchema,
  }),
  v.strictObject({
    kind: v.literal('part'),
    tuneId: idSchema,
    layerId: idSchema,
    part: v.pipe(
      v.string(),
      v.regex(/^[A-Z]$/, () => say.notCapital),
    ),
  }),
  v.strictObject({ kind: v.literal('tune'), tuneId: idSchema, layerId: idSchema }),
]);

const passSchema = v.strictObject({
  ...momentFields,
  kind: v.literal('pass'),
  id: idSchema,
  drillId: idSchema,
  tempo: numberWithin(TEMPO_MIN, TEMPO_MAX),
  outcome: v.picklist(OUTCOMES),
  fromMemory: v.boolean(),
  missAt: v.nullable(wholeWithin(0, limits.FIGURES_MAX)),
});

const correctionSchema = v.strictObject({
  ...momentFields,
  kind: v.literal('correction'),
  id: idSchema,
  drillId: idSchema,
  passId: idSchema,
  outcome: v.picklist([...OUTCOMES, 'unmarked'] as const),
});

export const logEntrySchema = v.variant('kind', [passSchema, correctionSchema]);

export const drillSchema = v.strictObject({
  ...momentFields,
  id: idSchema,
  sittingId: idSchema,
  passage: passageSchema,
  climb: v.picklist(CLIMBS),
});

const sittingFields = {
  ...momentFields,
  id: idSchema,
  minutes: numberWithin(0, limits.MINUTES_MAX),
  tuning: v.nullable(tuningSchema),
  hands: v.picklist(HANDS),
  note: textOf(0, limits.NOTE_MAX),
  origin: originSchema,
};

export const sittingSchema = v.strictObject(sittingFields);

/** A sitting whose drills and log belong together; see the limits of `limits.ts`. */
export const sealedSittingSchema = v.pipe(
  v.strictObject({
    ...sittingFields,
    endedAt: timeSchema,
    drills: listOf(drillSchema, 0, limits.DRILLS_MAX),
    log: listOf(logEntrySchema, 0, limits.LOG_MAX),
  }),
  v.rawCheck(({ dataset, addIssue }) => {
    if (!dataset.typed) return;
    for (const message of sittingFaults(dataset.value)) addIssue({ message });
  }),
);

function sittingFaults({ id, drills, log }: SealedSitting): string[] {
  const faults: string[] = [];
  const drillIds = drills.map((drill) => drill.id);
  const logIds = log.map((entry) => entry.id);
  const twice = repeated(drillIds) ?? repeated(logIds);
  if (twice) faults.push(say.twice(twice));
  const known = new Set([...drillIds, ...logIds]);
  const stray = drills.find(({ sittingId }) => sittingId !== id);
  if (stray) faults.push(sayAt(['drills'], sayRecord.strayDrill(stray.id)));
  const orphan = log.find(({ drillId }) => !known.has(drillId));
  if (orphan) faults.push(sayAt(['log'], sayRecord.drillGone(orphan.id, orphan.drillId)));
  const idle = log.find((entry) => entry.kind === 'correction' && !known.has(entry.passId));
  if (idle) faults.push(sayAt(['log'], sayRecord.passGone(idle.id)));
  return faults;
}

type _Proof = [
  Agrees<Same<Passage, v.InferOutput<typeof passageSchema>>>,
  Agrees<Same<Pass, v.InferOutput<typeof passSchema>>>,
  Agrees<Same<Correction, v.InferOutput<typeof correctionSchema>>>,
  Agrees<Same<LogEntry, v.InferOutput<typeof logEntrySchema>>>,
  Agrees<Same<Drill, v.InferOutput<typeof drillSchema>>>,
  Agrees<Same<Sitting, v.InferOutput<typeof sittingSchema>>>,
  Agrees<Same<SealedSitting, v.InferOutput<typeof sealedSittingSchema>>>,
];
