import { layerDepth, shownByLayer } from './layer-figures';
import { measureLabel } from './passage-name';
import { partPlaces, type Place } from './places';
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
  const depth = layerDepth(tune, layerId);
  const shown = shownByLayer(tune);
  const figureId = shown[depth]?.get(measureId);
  if (!figureId) throw new Error(`Tune ${tune.id} has no measure ${measureId} on its board`);
  const labels = tune.parts
    .flatMap(({ name }) => partPlaces(tune, layerId, name))
    .filter(({ figure }) => figure.id === figureId)
    .map(measureLabel);
  const isBelow = shown.slice(0, depth).some((layer) => [...layer.values()].includes(figureId));
  return { labels, isBelow };
}

/** A measure whose content can be copied; `layer` names the layer it stands in when that is another one. */
export interface CopySource {
  place: Place;
  layer: string | null;
}

/** Every other figure of the tune that has tab or melody, once: this layer's measures first, then the other layers'. */
export function copySources(tune: Tune, layerId: Id, measureId: Id): CopySource[] {
  const places = (id: Id): Place[] => tune.parts.flatMap(({ name }) => partPlaces(tune, id, name));
  const own = places(layerId).find(({ measure }) => measure.id === measureId);
  const found = new Map<Id, CopySource>();
  const layers = [...tune.layers].sort((a, b) => Number(b.id === layerId) - Number(a.id === layerId));
  for (const { id, name } of layers) {
    for (const place of places(id)) {
      const { figure } = place;
      const isSource = figure.strikes !== null || figure.melody !== undefined;
      if (!isSource || figure.id === own?.figure.id || found.has(figure.id)) continue;
      found.set(figure.id, { place, layer: id === layerId ? null : name });
    }
  }
  return [...found.values()];
}
