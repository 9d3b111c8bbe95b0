import { changeMeasure, type MeasureChange } from './change-measure';
import { figureById, layerDepth, placesShowing, shownByLayer, shownFigure } from './layer-figures';
import { measureLabel } from './passage-name';
import type { Id, Tune } from './tune';

/** Who shows a figure. */
export interface Showing {
  /** Labels of measures of the layer, in board order. */
  labels: string[];
  /** The name of the nearest layer below that shows it too. */
  below: string | null;
}

/**
 * What becomes of the passes played on a measure when it is written anew: they stay with it, or stay though they were
 * played on another length; or it begins without any; or it comes to show a figure that the tune had already and takes
 * over the passes of that, which is also shown `by` others. What was played so far is `left` to those that show it still.
 */
export type PassesAfter =
  | { kind: 'stay' }
  | { kind: 'other length'; isLonger: boolean }
  | { kind: 'begins'; left: Showing }
  | { kind: 'takes over'; by: Showing; left: Showing };

/** Throws as `changeMeasure` does. */
export function passesAfter(tune: Tune, change: MeasureChange): PassesAfter {
  const { layerId, measureId, content } = change;
  const before = shownFigure(tune, layerId, measureId);
  let made = 0;
  const next = changeMeasure(tune, change, () => `new ${(made += 1)}`, { at: 0, offsetMin: 0 });
  const after = shownFigure(next, layerId, measureId);
  if (after === before) {
    const { beats } = figureById(tune, before);
    return beats === content.beats
      ? { kind: 'stay' }
      : { kind: 'other length', isLonger: content.beats > beats };
  }
  const left = showing(next, layerId, before);
  if (!tune.figures.some(({ id }) => id === after)) return { kind: 'begins', left };
  const by = showing(next, layerId, after);
  const others = by.labels.filter((label) => label !== labelOf(next, measureId));
  return { kind: 'takes over', by: { ...by, labels: others }, left };
}

function showing(tune: Tune, layerId: Id, figureId: Id): Showing {
  const depth = shownByLayer(tune).findLastIndex(
    (shown, at) => at < layerDepth(tune, layerId) && [...shown.values()].includes(figureId),
  );
  return {
    labels: placesShowing(tune, layerId, figureId).map(measureLabel),
    below: tune.layers[depth]?.name ?? null,
  };
}

function labelOf(tune: Tune, measureId: Id): string | null {
  const labels = tune.parts.flatMap(({ name, measures }) =>
    measures.flatMap(({ id }, index) => (id === measureId ? [measureLabel({ part: name, index })] : [])),
  );
  return labels[0] ?? null;
}
