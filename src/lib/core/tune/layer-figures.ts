import type { Figure, Id, Layer, Measure, Tune } from './tune';

/** Which figure each measure of the board shows in one layer. */
export type Shown = ReadonlyMap<Id, Id>;

/** Where a layer stands, 0 for the first. Throws an Error for an id that is not one of the tune's layers. */
export function layerDepth(tune: Tune, layerId: Id): number {
  const depth = tune.layers.findIndex(({ id }) => id === layerId);
  if (depth < 0) throw new Error(`Tune ${tune.id} has no layer ${layerId}`);
  return depth;
}

/** Every measure of the parts, in board order. */
export function boardMeasures(tune: Tune): Measure[] {
  return tune.parts.flatMap(({ measures }) => [...measures]);
}

/** What the board shows in each layer, from the first up. */
export function shownByLayer(tune: Tune): Shown[] {
  const measures = boardMeasures(tune);
  let below: Shown = new Map(measures.map(({ id, figureId }) => [id, figureId]));
  return tune.layers.map(({ changes }) => {
    below = new Map(measures.map(({ id }) => [id, changes[id] ?? below.get(id) ?? '']));
    return below;
  });
}

/** What the board shows in one layer. Throws an Error for an id that is not one of the tune's layers. */
export function shownIn(tune: Tune, layerId: Id): Shown {
  return shownByLayer(tune)[layerDepth(tune, layerId)] ?? new Map<Id, Id>();
}

/** The figure that a measure shows in a layer. Throws an Error when the board has no such measure. */
export function shownFigure(tune: Tune, layerId: Id, measureId: Id): Id {
  const figureId = shownIn(tune, layerId).get(measureId);
  if (!figureId) throw new Error(`Tune ${tune.id} has no measure ${measureId} on its board`);
  return figureId;
}

/** The figure that a measure shows in the layer below; `null` in the first layer. */
export function figureBelow(tune: Tune, layerId: Id, measureId: Id): Id | null {
  return shownByLayer(tune)[layerDepth(tune, layerId) - 1]?.get(measureId) ?? null;
}

/** True when a layer below shows the figure too. */
export function isShownBelow(tune: Tune, layerId: Id, figureId: Id): boolean {
  const below = shownByLayer(tune).slice(0, layerDepth(tune, layerId));
  return below.some((shown) => [...shown.values()].includes(figureId));
}

/** The places of the measures that show a figure in a layer, in board order. */
export function placesShowing(tune: Tune, layerId: Id, figureId: Id): { part: string; index: number }[] {
  const shown = shownIn(tune, layerId);
  return tune.parts.flatMap(({ name, measures }) =>
    measures.flatMap(({ id }, index) => (shown.get(id) === figureId ? [{ part: name, index }] : [])),
  );
}

/** Ids of the measures that show another figure in a layer than in the one below it, in board order; none in the first. */
export function changedMeasures(tune: Tune, layerId: Id): Id[] {
  const depth = layerDepth(tune, layerId);
  const shown = shownByLayer(tune);
  const [below, here] = [shown[depth - 1], shown[depth]];
  if (!below || !here) return [];
  return boardMeasures(tune)
    .filter(({ id }) => below.get(id) !== here.get(id))
    .map(({ id }) => id);
}

/** Ids of the figures that a layer brings: no layer below shows them, so only they are new to learn. In board order. */
export function figuresNewIn(tune: Tune, layerId: Id): Id[] {
  const depth = layerDepth(tune, layerId);
  const shown = shownByLayer(tune);
  const known = new Set(shown.slice(0, depth).flatMap((layer) => [...layer.values()]));
  return [...new Set(shown[depth]?.values())].filter((id) => !known.has(id));
}

/**
 * The tune with some measures showing other figures in one layer: measure id -> figure id. What other layers change
 * themselves stays; a measure that comes to show what it shows in the layer below is changed no more.
 */
export function showInLayer(tune: Tune, layerId: Id, wanted: ReadonlyMap<Id, Id>, at: number): Tune {
  const depth = layerDepth(tune, layerId);
  if (depth === 0) {
    const parts = tune.parts.map((part) => ({
      ...part,
      measures: part.measures.map((measure) => {
        const figureId = wanted.get(measure.id) ?? measure.figureId;
        return figureId === measure.figureId ? measure : { ...measure, figureId, editedAt: at };
      }),
    }));
    return { ...tune, parts };
  }
  const below = shownByLayer(tune)[depth - 1];
  return changeLayer(tune, layerId, (layer) => {
    const changes = new Map(Object.entries(layer.changes));
    for (const [measureId, figureId] of wanted) {
      if (below?.get(measureId) === figureId) changes.delete(measureId);
      else changes.set(measureId, figureId);
    }
    const times = Object.fromEntries([...wanted.keys()].map((measureId) => [measureId, at]));
    return { ...layer, changes: Object.fromEntries(changes), changedAt: { ...layer.changedAt, ...times } };
  });
}

export function changeLayer(tune: Tune, layerId: Id, change: (layer: Layer) => Layer): Tune {
  return { ...tune, layers: tune.layers.map((layer) => (layer.id === layerId ? change(layer) : layer)) };
}

/** The figure of an id. Throws an Error when the tune has none. */
export function figureById(tune: Tune, figureId: Id): Figure {
  const figure = tune.figures.find(({ id }) => id === figureId);
  if (!figure) throw new Error(`Tune ${tune.id} has no figure ${figureId}`);
  return figure;
}
