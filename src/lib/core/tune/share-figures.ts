import type { Moment } from '../time/moment';
import { fitFigures } from './fit-figures';
import { figureById, showInLayer, shownFigure, shownIn } from './layer-figures';
import type { Id, Layer, Tune } from './tune';

/**
 * The tune after the learner has said that two figures of a layer are the same: measures that showed `other` show `kept`
 * there. The passes of both stay in the log; `kept` shows its own. Throws an Error when their lengths differ.
 */
export function joinFigures(tune: Tune, layerId: Id, kept: Id, other: Id, now: Moment): Tune {
  if (figureById(tune, kept).beats !== figureById(tune, other).beats) {
    throw new Error('Measures of different lengths cannot be the same');
  }
  const wanted = [...shownIn(tune, layerId)]
    .filter(([, figureId]) => figureId === other)
    .map(([id]) => [id, kept] as const);
  return showInLayer(tune, layerId, new Map(wanted), now.at);
}

/** The tune with one measure of a layer learned on its own: a new figure that sounds as before and has no passes yet. */
export function splitOff(tune: Tune, layerId: Id, measureId: Id, nextId: () => Id, now: Moment): Tune {
  const figureId = shownFigure(tune, layerId, measureId);
  const own = { ...figureById(tune, figureId), id: nextId(), editedAt: now.at };
  const split = { ...tune, figures: [...tune.figures, own] };
  return showInLayer(split, layerId, new Map([[measureId, own.id]]), now.at);
}

/**
 * The measures, figures and layers of a tune as they were `before`, as an edit of this moment, so that merging takes it
 * for the later one. Figures that came since are kept; layers that came since go to the shelf.
 */
export function restoreShape(tune: Tune, before: Tune, { at }: Moment): Tune {
  const measures = new Map(tune.parts.flatMap((part) => part.measures.map((one) => [one.id, one] as const)));
  const olds = new Map(before.figures.map((figure) => [figure.id, figure]));
  const { layerShelf = [], ...rest } = tune;
  const known = new Map([...layerShelf, ...tune.layers].map((layer) => [layer.id, layer]));
  const isBack = new Set(before.layers.map(({ id }) => id));
  const shelf = [...known.values()]
    .filter(({ id }) => !isBack.has(id))
    .map((layer) => (layerShelf.includes(layer) ? layer : { ...layer, editedAt: at }));
  return fitFigures({
    ...rest,
    parts: before.parts.map((part) => ({
      ...part,
      measures: part.measures.map((old) => {
        const now = measures.get(old.id);
        return now?.figureId === old.figureId ? now : { ...old, editedAt: at };
      }),
    })),
    figures: tune.figures.map((figure) => {
      const old = olds.get(figure.id);
      return !old || JSON.stringify(old) === JSON.stringify(figure) ? figure : { ...old, editedAt: at };
    }),
    layers: before.layers.map((old) => restoredLayer(old, known.get(old.id), tune.layers, at)),
    ...(shelf.length > 0 && { layerShelf: shelf }),
  });
}

function restoredLayer(old: Layer, now: Layer | undefined, standing: readonly Layer[], at: number): Layer {
  const measures = new Set([...Object.keys(old.changes), ...Object.keys(now?.changes ?? {})]);
  const moved = [...measures].filter((id) => old.changes[id] !== now?.changes[id]);
  const times = Object.fromEntries(moved.map((id) => [id, at]));
  const isEdited = !now || old.name !== now.name || !standing.includes(now);
  const changedAt = { ...old.changedAt, ...now?.changedAt, ...times };
  return {
    ...old,
    ...(Object.keys(changedAt).length > 0 && { changedAt }),
    ...(isEdited && { editedAt: at }),
  };
}
