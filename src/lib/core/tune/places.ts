import { meterShape } from '../rhythm/meter';
import { passageKey, type Passage } from './passage';
import type { Figure, Id, Layer, Measure, Tune } from './tune';

/** A measure where it stands on the board, in one layer. */
export interface Place {
  part: string;
  /** From 0 in the part. */
  index: number;
  measure: Measure;
  figure: Figure;
}

/** The figure that a measure has in a layer: the latest change at or below that layer, else the measure's own. */
export function figureOf(tune: Tune, layerId: Id, measure: Measure): Figure {
  const depth = Math.max(
    0,
    tune.layers.findIndex((layer) => layer.id === layerId),
  );
  let figureId = measure.figureId;
  for (const layer of tune.layers.slice(0, depth + 1)) figureId = layer.changes[measure.id] ?? figureId;
  const figure = tune.figures.find(({ id }) => id === figureId);
  if (!figure)
    throw new Error(`Tune ${tune.id} has no figure ${figureId}, which measure ${measure.id} names`);
  return figure;
}

/** The layer in the hands: the first one. Later layers are chosen by the learner or offered by the plan. */
export function firstLayer(tune: Tune): Layer {
  const layer = tune.layers[0];
  if (!layer) throw new Error(`Tune ${tune.id} has no layer`);
  return layer;
}

/** The measures of one part, or none when the tune has no such part. */
export function partPlaces(tune: Tune, layerId: Id, part: string): Place[] {
  const measures = tune.parts.find(({ name }) => name === part)?.measures ?? [];
  return measures.map((measure, index) => ({
    part,
    index,
    measure,
    figure: figureOf(tune, layerId, measure),
  }));
}

/** Every measure of the board, part by part. */
export function boardPlaces(tune: Tune, layerId: Id): Place[] {
  return tune.parts.flatMap(({ name }) => partPlaces(tune, layerId, name));
}

/** Every measure of the tune in the order in which it is played, repeats written out. */
export function playedPlaces(tune: Tune, layerId: Id): Place[] {
  const parts = new Map(tune.parts.map(({ name }) => [name, partPlaces(tune, layerId, name)]));
  return [...tune.form].flatMap((letter) => parts.get(letter) ?? []);
}

/** The seams of a tune in one layer, each once, in the order in which they are first played. */
export function seamPassages(tune: Tune, layerId: Id): Extract<Passage, { kind: 'seam' }>[] {
  const played = playedPlaces(tune, layerId);
  const seams = new Map<string, Extract<Passage, { kind: 'seam' }>>();
  for (const [index, to] of played.entries()) {
    const from = played[index - 1];
    if (!from) continue;
    const seam = {
      kind: 'seam' as const,
      tuneId: tune.id,
      fromFigureId: from.figure.id,
      toFigureId: to.figure.id,
    };
    seams.set(passageKey(seam), seam);
  }
  return [...seams.values()];
}

/** The figures of a tune in one layer, each once, in the order in which they are first played. */
export function figurePassages(tune: Tune, layerId: Id): Extract<Passage, { kind: 'figure' }>[] {
  const ids = new Set(playedPlaces(tune, layerId).map(({ figure }) => figure.id));
  return [...ids].map((figureId) => ({ kind: 'figure', tuneId: tune.id, figureId }));
}

/** The parts of a tune, each once, in the order of the form. */
export function partPassages(tune: Tune, layerId: Id): Extract<Passage, { kind: 'part' }>[] {
  return [...new Set(tune.form)].map((part) => ({ kind: 'part', tuneId: tune.id, layerId, part }));
}

/**
 * One measure, whole or in part, as a pass plays it: `fromBeat` (included) to `toBeat` (not included), in beats of
 * the tune's meter from the start of the measure.
 */
export interface Stretch extends Place {
  fromBeat: number;
  toBeat: number;
}

/**
 * What a pass of a passage plays, in order. A seam is the last beat of one measure and the first beat of the next.
 * Empty when the passage is no longer in the tune (an edited tune; the log keeps its passes).
 */
export function passageStretches(tune: Tune, passage: Passage): Stretch[] {
  switch (passage.kind) {
    case 'figure': {
      const place = placesOfFigure(tune, passage.figureId)[0];
      return place ? [wholeMeasure(place)] : [];
    }
    case 'seam':
      return seamStretches(tune, passage);
    case 'phrase': {
      const part = tune.parts.find(({ measures }) => measures.some(({ id }) => id === passage.fromMeasureId));
      if (!part) return [];
      const from = part.measures.findIndex(({ id }) => id === passage.fromMeasureId);
      const to = part.measures.findIndex(({ id }) => id === passage.toMeasureId);
      if (to < from) return [];
      return partPlaces(tune, passage.layerId, part.name)
        .slice(from, to + 1)
        .map(wholeMeasure);
    }
    case 'part':
      return partPlaces(tune, passage.layerId, passage.part).map(wholeMeasure);
    case 'tune':
      return playedPlaces(tune, passage.layerId).map(wholeMeasure);
  }
}

/** Beats of the tune's meter in one pass of a passage; 0 when the passage is no longer in the tune. */
export function passageBeats(tune: Tune, passage: Passage): number {
  return passageStretches(tune, passage).reduce(
    (beats, { fromBeat, toBeat }) => beats + toBeat - fromBeat,
    0,
  );
}

/** Every measure that has a figure, in board order, in the first layer in which the figure stands. */
export function placesOfFigure(tune: Tune, figureId: Id): Place[] {
  for (const layer of tune.layers) {
    const places = boardPlaces(tune, layer.id).filter(({ figure }) => figure.id === figureId);
    if (places.length > 0) return places;
  }
  return [];
}

/** True when the measure has not the length that the tune's meter gives it. */
export function isCrooked(tune: Tune, figure: Figure): boolean {
  return figure.beats !== meterShape(tune.meter).beats;
}

function wholeMeasure(place: Place): Stretch {
  return { ...place, fromBeat: 0, toBeat: place.figure.beats };
}

function seamStretches(tune: Tune, seam: Extract<Passage, { kind: 'seam' }>): Stretch[] {
  for (const layer of tune.layers) {
    const played = playedPlaces(tune, layer.id);
    for (const [index, to] of played.entries()) {
      const from = played[index - 1];
      if (from?.figure.id !== seam.fromFigureId || to.figure.id !== seam.toFigureId) continue;
      return [
        { ...from, fromBeat: Math.max(0, from.figure.beats - 1), toBeat: from.figure.beats },
        { ...to, fromBeat: 0, toBeat: Math.min(1, to.figure.beats) },
      ];
    }
  }
  return [];
}
