import type { Moment } from '../time/moment';
import { changeLayer, figureBelow, figureById, layerDepth, shownByLayer } from './layer-figures';
import type { Technique } from './strike';
import type { Figure, Id, Layer, Tune } from './tune';

export { changedMeasures, figuresNewIn } from './layer-figures';

/** One new technique a layer, in the order in which teachers of the style bring them in (common practice). */
const STEPS: readonly { name: string; techniques: readonly Technique[] }[] = [
  { name: 'drop-thumb', techniques: ['drop-thumb'] },
  { name: 'hammer-ons and pull-offs', techniques: ['hammer-on', 'pull-off'] },
  { name: 'slides', techniques: ['slide'] },
  { name: 'brushes', techniques: ['brush'] },
];

/** The tune with a layer more on top. It shows what the layer below it shows, until measures of it are changed. */
export function addLayer(tune: Tune, name: string, nextId: () => Id, now: Moment): Tune {
  const layer: Layer = { id: nextId(), name, changes: {}, editedAt: now.at };
  return { ...tune, layers: [...tune.layers, layer] };
}

export function renameLayer(tune: Tune, layerId: Id, name: string, now: Moment): Tune {
  return changeLayer(tune, layerId, (layer) => ({ ...layer, name, editedAt: now.at }));
}

/**
 * The tune without its last layer: what it changed goes off the board, every pass stays in the log. `putBackLayer`
 * brings it back. Throws an Error when only the first layer is left.
 */
export function removeLastLayer(tune: Tune, now: Moment): Tune {
  const last = tune.layers.at(-1);
  if (!last || tune.layers.length === 1) throw new Error('The first layer is the tune itself: it stays');
  const shelved = { ...last, editedAt: now.at };
  return { ...tune, layers: tune.layers.slice(0, -1), layerShelf: [...(tune.layerShelf ?? []), shelved] };
}

/** The tune with a layer that was taken off on top again, as it was. Throws an Error when it is not on the shelf. */
export function putBackLayer(tune: Tune, layerId: Id, now: Moment): Tune {
  const { layerShelf = [], ...rest } = tune;
  const layer = layerShelf.find(({ id }) => id === layerId);
  if (!layer) throw new Error(`Tune ${tune.id} has no layer ${layerId} that was taken off`);
  const left = layerShelf.filter((other) => other !== layer);
  return {
    ...rest,
    layers: [...tune.layers, { ...layer, editedAt: now.at }],
    ...(left.length > 0 && { layerShelf: left }),
  };
}

/** What a measure is in the layer below, and that layer's name; `null` in the first layer. */
export function measureBelow(
  tune: Tune,
  layerId: Id,
  measureId: Id,
): { layer: string; figure: Figure } | null {
  const below = figureBelow(tune, layerId, measureId);
  const layer = tune.layers[layerDepth(tune, layerId) - 1];
  return below !== null && layer ? { layer: layer.name, figure: figureById(tune, below) } : null;
}

/** What a next layer would be called: the first technique that the tune does not have yet and no layer is named after. */
export function nextLayerName(tune: Tune): string {
  const top = shownByLayer(tune).at(-1);
  const there = new Set(
    [...new Set(top?.values())].flatMap(
      (id) => figureById(tune, id).strikes?.map(({ technique }) => technique) ?? [],
    ),
  );
  const names = new Set(tune.layers.map(({ name }) => name));
  const step = STEPS.find(
    ({ name, techniques }) => !names.has(name) && !techniques.some((technique) => there.has(technique)),
  );
  return step?.name ?? `layer ${tune.layers.length + 1}`;
}
