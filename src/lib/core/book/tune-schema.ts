import * as v from 'valibot';
import { say } from '../../texts/damage';
import { say as sayRecord } from '../../texts/record-damage';
import { firstOutside, meterShape, METERS, TEMPO_MAX, TEMPO_MIN, type Meter } from '../rhythm/meter';
import { fitFigure } from '../tune/fit-figures';
import type { MelodyNote } from '../tune/melody';
import type { Strike } from '../tune/strike';
import type { Figure, Layer, Measure, MeasureLabel, Part, Pickup, Tune } from '../tune/tune';
import * as limits from './limits';
import { sayAt } from './say-damage';
import {
  byId,
  type Agrees,
  halves,
  idSchema,
  listOf,
  melodySchema,
  momentSchema,
  numberWithin,
  onsetSchema,
  originSchema,
  repeated,
  type Same,
  strikesSchema,
  textOf,
  timeSchema,
  tuningSchema,
  wholeWithin,
} from './schema-words';

const figureSchema = v.strictObject({
  id: idSchema,
  beats: halves(limits.BEATS_MIN, limits.FITTED_BEATS_MAX),
  writtenBeats: v.exactOptional(halves(limits.BEATS_MIN, limits.BEATS_MAX)),
  strikes: v.nullable(strikesSchema),
  melody: v.exactOptional(melodySchema),
  editedAt: timeSchema,
});

export const labelSchema = v.strictObject({
  onset: onsetSchema,
  kind: v.picklist(['chord', 'word']),
  text: textOf(1, limits.LABEL_MAX),
});

const measureSchema = v.strictObject({
  id: idSchema,
  figureId: idSchema,
  labels: v.exactOptional(listOf(labelSchema, 0, limits.LABELS_MAX)),
  editedAt: timeSchema,
});

const partSchema = v.strictObject({
  name: v.pipe(
    v.string(),
    v.regex(/^[A-Z]$/, () => say.notCapital),
  ),
  measures: listOf(measureSchema, 1, limits.MEASURES_MAX),
});

export const pickupSchema = v.strictObject({
  beats: halves(limits.BEATS_MIN, limits.BEATS_MAX),
  strikes: v.nullable(strikesSchema),
  melody: v.exactOptional(melodySchema),
});

const layerSchema = v.strictObject({
  id: idSchema,
  name: textOf(1, limits.NAME_MAX),
  changes: byId(idSchema),
  changedAt: v.exactOptional(byId(timeSchema)),
  editedAt: v.exactOptional(timeSchema),
});

const tuneFieldsSchema = v.strictObject({
  id: idSchema,
  title: textOf(1, limits.TITLE_MAX),
  tuning: tuningSchema,
  capo: wholeWithin(0, limits.CAPO_MAX),
  spike: wholeWithin(0, limits.CAPO_MAX),
  key: textOf(0, limits.KEY_MAX),
  meter: v.picklist(METERS),
  goalTempo: numberWithin(TEMPO_MIN, TEMPO_MAX),
  form: v.pipe(
    textOf(1, limits.FORM_MAX),
    v.regex(/^[A-Z]*$/, () => say.notCapitals),
  ),
  parts: listOf(partSchema, 1, limits.PARTS_MAX),
  shelf: v.exactOptional(listOf(measureSchema, 0, limits.FIGURES_MAX)),
  figures: listOf(figureSchema, 1, limits.FIGURES_MAX),
  layers: listOf(layerSchema, 1, limits.LAYERS_MAX),
  layerShelf: v.exactOptional(listOf(layerSchema, 0, limits.LAYERS_MAX)),
  pickup: v.nullable(pickupSchema),
  origin: originSchema,
  added: momentSchema,
  editedAt: timeSchema,
  archived: v.boolean(),
  deletedAt: v.nullable(timeSchema),
});

/** A tune whose parts, figures and layers fit together; see the limits of `limits.ts`. */
export const tuneSchema = v.pipe(
  tuneFieldsSchema,
  v.rawCheck(({ dataset, addIssue }) => {
    if (!dataset.typed) return;
    for (const message of tuneFaults(dataset.value)) addIssue({ message });
  }),
);

function tuneFaults(tune: Tune): string[] {
  return [...nameFaults(tune), ...figureFaults(tune), ...strikeFaults(tune)];
}

function nameFaults({ form, parts, shelf = [], layers, layerShelf = [] }: Tune): string[] {
  const faults: string[] = [];
  const names = parts.map(({ name }) => name);
  for (const letter of new Set(form)) {
    if (!names.includes(letter)) faults.push(sayAt(['form'], sayRecord.formNamesPart(form, letter)));
  }
  const measures = [...parts.flatMap((part) => part.measures), ...shelf];
  const name = repeated(names);
  if (name) faults.push(sayAt(['parts'], sayRecord.partTwice(name)));
  const measureId = repeated(measures.map(({ id }) => id));
  if (measureId) faults.push(sayAt(['parts'], sayRecord.measureTwice(measureId)));
  const layerId = repeated([...layers, ...layerShelf].map(({ id }) => id));
  if (layerId) faults.push(sayAt(['layers'], sayRecord.layerTwice(layerId)));
  if (Object.keys(layers[0]?.changes ?? {}).length > 0) {
    faults.push(sayAt(['layers', 0, 'changes'], sayRecord.firstLayerChanges));
  }
  return faults;
}

function figureFaults({ parts, shelf = [], figures, layers, layerShelf = [] }: Tune): string[] {
  const ids = new Set(figures.map(({ id }) => id));
  const measures = [...parts.flatMap((part) => part.measures), ...shelf];
  const measureIds = new Set(measures.map(({ id }) => id));
  const changes = [...layers, ...layerShelf].flatMap((layer) => Object.entries(layer.changes));
  const named = [...measures.map(({ figureId }) => figureId), ...changes.map(([, figureId]) => figureId)];
  const faults = [...new Set(named)]
    .filter((id) => !ids.has(id))
    .map((id) => sayAt(['figures'], sayRecord.figureGone(id)));
  const twice = repeated(figures.map(({ id }) => id));
  if (twice) faults.push(sayAt(['figures'], sayRecord.figureTwice(twice)));
  const lost = changes.find(([measureId]) => !measureIds.has(measureId));
  if (lost) faults.push(sayAt(['layers'], sayRecord.measureGone(lost[0])));
  return faults;
}

function strikeFaults({ figures, meter, pickup }: Tune): string[] {
  const faults: string[] = [];
  for (const [index, figure] of figures.entries()) {
    const { strikes, melody, beats } = figure;
    const outside = firstOutside([...(strikes ?? []), ...(melody ?? [])], meter, beats);
    if (outside)
      faults.push(`figures, ${index + 1}: ${sayRecord.noteOutsideMeasure(outside.onset.join('/'))}`);
    else if (!isFitted(figure, meter))
      faults.push(`figures, ${index + 1}: ${sayRecord.notFitted(beats, figure.writtenBeats)}`);
  }
  if (!pickup) return faults;
  const { beats } = meterShape(meter);
  if (pickup.beats >= beats) faults.push(sayAt(['pickup', 'beats'], sayRecord.longPickup(pickup.beats)));
  const outside = firstOutside([...(pickup.strikes ?? []), ...(pickup.melody ?? [])], meter, pickup.beats);
  if (outside) faults.push(sayAt(['pickup'], sayRecord.noteOutsidePickup(outside.onset.join('/'))));
  return faults;
}

/** Merging holds a lengthened measure to what it would make of it itself, so that merging a book with itself changes nothing. */
function isFitted(figure: Figure, meter: Meter): boolean {
  if (figure.writtenBeats === undefined) return figure.beats <= limits.BEATS_MAX;
  return figure.beats > figure.writtenBeats && fitFigure(figure, meter) === figure;
}

type _Proof = [
  Agrees<Same<MeasureLabel, v.InferOutput<typeof labelSchema>>>,
  Agrees<Same<MelodyNote, v.InferOutput<typeof melodySchema>[number]>>,
  Agrees<Same<Strike, v.InferOutput<typeof strikesSchema>[number]>>,
  Agrees<Same<Figure, v.InferOutput<typeof figureSchema>>>,
  Agrees<Same<Measure, v.InferOutput<typeof measureSchema>>>,
  Agrees<Same<Part, v.InferOutput<typeof partSchema>>>,
  Agrees<Same<Pickup, v.InferOutput<typeof pickupSchema>>>,
  Agrees<Same<Layer, v.InferOutput<typeof layerSchema>>>,
  Agrees<Same<Tune, v.InferOutput<typeof tuneSchema>>>,
];
