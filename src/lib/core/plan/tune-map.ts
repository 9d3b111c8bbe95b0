import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import type { Figure, Id, Layer, Measure, Tune } from '../tune/tune';

/** A passage that can be drilled, with the beats of one pass. */
export interface Link<P extends Passage = Passage> {
  key: PassageKey;
  passage: P;
  beats: number;
}

export type FigureLink = Link<Extract<Passage, { kind: 'figure' }>>;

/** `from` and `to` are places in the layer's `figures`. */
export interface SeamLink extends Link<Extract<Passage, { kind: 'seam' }>> {
  from: number;
  to: number;
}

/** `figures` and `seams` are places in the layer's lists: what the part is made of. */
export interface PartLink extends Link<Extract<Passage, { kind: 'part' }>> {
  measures: readonly Measure[];
  /** The figure of each measure, as its place in the layer's figures. */
  places: readonly number[];
  figures: readonly number[];
  seams: readonly number[];
  /** The seam between each measure and the next, as its place in the layer's seams. */
  joins: readonly number[];
}

/** What can be drilled of a tune in one layer, in playing order, each passage once. */
export interface LayerMap {
  layer: Layer;
  figures: readonly FigureLink[];
  seams: readonly SeamLink[];
  parts: readonly PartLink[];
  whole: WholeLink;
}

export type PhraseLink = Link<Extract<Passage, { kind: 'phrase' }>>;

/** `places` and `joins` as in a part, for the whole form, repeats written out. */
export interface WholeLink extends Link<Extract<Passage, { kind: 'tune' }>> {
  places: readonly number[];
  joins: readonly number[];
}

/** With a goal that is no tempo, this stands in: a dance's (SCIENCE.md section 3: 64 beats in 32 s). */
const USUAL_GOAL = 120;

/** The tune's goal in beats per minute, always one that the program plays. */
export function goalOf({ goalTempo }: Pick<Tune, 'goalTempo'>): number {
  return goalTempo >= TEMPO_MIN && goalTempo <= TEMPO_MAX ? goalTempo : USUAL_GOAL;
}

const mapped = new WeakMap<Tune, LayerMap[]>();

/**
 * The layers of a tune that can be played, the plain one first. A layer that names a missing figure, or in which
 * nothing sounds for at least half a beat, is left out. Remembered by the tune object: tunes are never changed in place.
 */
export function layerMaps(tune: Tune): LayerMap[] {
  const known = mapped.get(tune);
  if (known) return known;
  const maps = tune.layers.map((_, depth) => mapLayer(tune, depth)).filter((map) => map !== null);
  mapped.set(tune, maps);
  return maps;
}

interface PlacedPart {
  name: string;
  measures: readonly Measure[];
  /** Places in the figure list, one a measure. */
  places: number[];
}

function mapLayer(tune: Tune, depth: number): LayerMap | null {
  const layer = tune.layers[depth]!;
  const figures: FigureLink[] = [];
  const placeById = new Map<Id, number>();
  const byId = new Map(tune.figures.map((figure) => [figure.id, figure]));
  const parts = new Map<string, PlacedPart>();
  for (const name of new Set(tune.form)) {
    const part = tune.parts.find((candidate) => candidate.name === name);
    if (!part || part.measures.length === 0) continue;
    const places: number[] = [];
    for (const measure of part.measures) {
      const figure = byId.get(figureIdIn(tune, depth, measure));
      if (!figure || !isPlayable(figure)) return null;
      places.push(placeFigure(tune.id, figure, figures, placeById));
    }
    parts.set(name, { name, measures: part.measures, places });
  }
  if (figures.length === 0) return null;
  return joinLayer(tune, layer, figures, parts);
}

function figureIdIn(tune: Tune, depth: number, measure: Measure): Id {
  let figureId = measure.figureId;
  for (let below = 0; below <= depth; below++) {
    figureId = tune.layers[below]?.changes[measure.id] ?? figureId;
  }
  return figureId;
}

function isPlayable({ beats }: Figure): boolean {
  return Number.isFinite(beats) && beats >= 0.5;
}

function placeFigure(tuneId: Id, figure: Figure, figures: FigureLink[], placeById: Map<Id, number>): number {
  const known = placeById.get(figure.id);
  if (known !== undefined) return known;
  const passage = { kind: 'figure' as const, tuneId, figureId: figure.id };
  placeById.set(figure.id, figures.length);
  return figures.push({ key: passageKey(passage), passage, beats: figure.beats }) - 1;
}

function joinLayer(
  tune: Tune,
  layer: Layer,
  figures: FigureLink[],
  placed: ReadonlyMap<string, PlacedPart>,
): LayerMap {
  const tuneId = tune.id;
  const layerId = layer.id;
  const seams = new Map<string, { place: number; link: SeamLink }>();
  const seamPlace = (from: number, to: number): number => {
    const pair = `${from}-${to}`;
    const known = seams.get(pair);
    if (known) return known.place;
    const [before, after] = [figures[from]!, figures[to]!];
    const passage = {
      kind: 'seam' as const,
      ...{ tuneId, fromFigureId: before.passage.figureId, toFigureId: after.passage.figureId },
    };
    const beats = Math.min(1, before.beats) + Math.min(1, after.beats);
    const place = seams.size;
    seams.set(pair, { place, link: { key: passageKey(passage), passage, beats, from, to } });
    return place;
  };
  const played = [...tune.form].flatMap((name) => placed.get(name)?.places ?? []);
  const joins = played.slice(1).map((to, index) => seamPlace(played[index]!, to));
  const beatsOf = (places: readonly number[]) =>
    places.reduce((sum, place) => sum + figures[place]!.beats, 0);
  const parts = [...placed.values()].map(({ name, measures, places }): PartLink => {
    const passage = { kind: 'part' as const, tuneId, layerId, part: name };
    const inner = places.slice(1).map((to, index) => seamPlace(places[index]!, to));
    return {
      key: passageKey(passage),
      ...{ passage, measures, places, beats: beatsOf(places) },
      figures: [...new Set(places)],
      seams: [...new Set(inner)],
      joins: inner,
    };
  });
  const passage = { kind: 'tune' as const, tuneId, layerId };
  return {
    layer,
    figures,
    seams: [...seams.values()].map(({ link }) => link),
    parts,
    whole: { key: passageKey(passage), passage, beats: beatsOf(played), places: played, joins },
  };
}

/** The run of `count` measures of a part from its measure `from` (index) on, at least two. */
export function phraseIn(
  { tune, map }: { tune: Tune; map: LayerMap },
  { measures, places }: PartLink,
  from: number,
  count: number,
): PhraseLink {
  const passage = {
    kind: 'phrase' as const,
    ...{ tuneId: tune.id, layerId: map.layer.id },
    ...{ fromMeasureId: measures[from]!.id, toMeasureId: measures[from + count - 1]!.id },
  };
  const beats = places.slice(from, from + count).reduce((sum, place) => sum + map.figures[place]!.beats, 0);
  return { key: passageKey(passage), passage, beats };
}
