import { isShownBelow, placesShowing, shownFigure, shownIn } from './layer-figures';
import { measureLabel } from './passage-name';
import { boardPlaces, type Place } from './places';
import { isWritten } from './shared-measures';
import type { Id, Tune } from './tune';

/** Who else shows what a measure shows, before it is written anew. */
export interface MeasureSharing {
  /** Labels of all measures of the layer that show this figure, the measure itself included, in board order. */
  labels: string[];
  /** A layer below shows the figure too: it keeps it, whatever is written here. */
  isBelow: boolean;
}

/** Throws an Error for a layer or measure that the tune does not have. */
export function measureSharing(tune: Tune, layerId: Id, measureId: Id): MeasureSharing {
  const figureId = shownFigure(tune, layerId, measureId);
  return {
    labels: placesShowing(tune, layerId, figureId).map(measureLabel),
    isBelow: isShownBelow(tune, layerId, figureId),
  };
}

/** A measure whose content can be copied; `layer` names the layer it stands in when that is another one. */
export interface CopySource {
  place: Place;
  layer: string | null;
}

/** Every other figure of the tune that has tab or melody, once: this layer's measures first, then the other layers'. */
export function copySources(tune: Tune, layerId: Id, measureId: Id): CopySource[] {
  const own = shownIn(tune, layerId).get(measureId);
  const found = new Map<Id, CopySource>();
  const layers = [...tune.layers].sort((a, b) => Number(b.id === layerId) - Number(a.id === layerId));
  for (const { id, name } of layers) {
    for (const place of boardPlaces(tune, id)) {
      const { figure } = place;
      if (!isWritten(figure) || figure.id === own || found.has(figure.id)) continue;
      found.set(figure.id, { place, layer: id === layerId ? null : name });
    }
  }
  return [...found.values()];
}
