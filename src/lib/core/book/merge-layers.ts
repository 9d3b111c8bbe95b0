import type { Id, Layer, Tune } from '../tune/tune';
import { byId, compareText } from './book';
import { later, mergeLists } from './merge-lists';

type Layers = Pick<Tune, 'layers' | 'layerShelf'>;

/** A layer with whether it was taken off. */
interface StandingLayer extends Layer {
  isOff: boolean;
}

/**
 * The layers of two copies of a tune: every layer of both, its name and whether it was taken off from its later edit, and
 * each measure that it changes from its own later change. The tune's first layer stays the first; the others stand in the
 * order of their ids, which is that of their making, unless both copies agree on another.
 */
export function mergeLayers(a: Tune, b: Tune): Layers {
  const merged = mergeLists(standing(a), standing(b), ({ id }) => id, mergeLayer);
  if (!sameOrder(a, b)) merged.sort(byId);
  const first = [a, b].map(({ layers }) => layers[0]?.id ?? '').sort(compareText)[0];
  const bottom = merged.filter(({ id }) => id === first).map((layer) => ({ ...layer, isOff: false }));
  const all = [...bottom, ...merged.filter(({ id }) => id !== first)];
  const layers = all.filter(({ isOff }) => !isOff).map(bare);
  const shelf = all.filter(({ isOff }) => isOff).map(bare);
  return { layers, ...(shelf.length > 0 && { layerShelf: shelf }) };
}

function standing({ layers, layerShelf = [] }: Layers): StandingLayer[] {
  const stand = (list: readonly Layer[], isOff: boolean): StandingLayer[] =>
    list.map((layer) => ({ ...layer, isOff }));
  return [...stand(layers, false), ...stand(layerShelf, true)];
}

function bare({ isOff: _isOff, ...layer }: StandingLayer): Layer {
  return layer;
}

function sameOrder(a: Tune, b: Tune): boolean {
  const order = (tune: Tune): string => JSON.stringify(standing(tune).map(({ id, isOff }) => [id, isOff]));
  return order(a) === order(b);
}

function mergeLayer(a: StandingLayer, b: StandingLayer): StandingLayer {
  const { id, name, isOff, editedAt } = later(
    a,
    b,
    (layer) => layer.editedAt ?? 0,
    (layer) => [layer.name, layer.isOff, layer.editedAt ?? null],
  );
  const changes: Record<Id, Id> = {};
  const changedAt: Record<Id, number> = {};
  for (const measureId of new Set([a, b].flatMap((layer) => measuresOf(layer)))) {
    const figureId = laterChange(a, b, measureId).changes[measureId];
    if (figureId) changes[measureId] = figureId;
    const times = [a, b].map((layer) => layer.changedAt?.[measureId]).filter((time) => time !== undefined);
    if (times.length > 0) changedAt[measureId] = Math.max(...times);
  }
  const isTimed = a.changedAt ?? b.changedAt;
  return {
    ...{ id, name, changes, isOff },
    ...(isTimed && { changedAt }),
    ...(editedAt !== undefined && { editedAt }),
  };
}

function measuresOf({ changes, changedAt = {} }: Layer): Id[] {
  return [...Object.keys(changes), ...Object.keys(changedAt)];
}

/** The copy that changed a measure last, be it back; of two at one time the one with the greater figure. */
function laterChange(a: Layer, b: Layer, measureId: Id): Layer {
  const time = ({ changedAt }: Layer): number => changedAt?.[measureId] ?? 0;
  const figure = ({ changes }: Layer): string => changes[measureId] ?? '';
  const order = time(a) - time(b) || compareText(figure(a), figure(b));
  return order >= 0 ? a : b;
}
