import type { Moment } from '../time/moment';
import {
  boardMeasures,
  changeLayer,
  figureBelow,
  figureById,
  isShownBelow,
  layerDepth,
  showInLayer,
  shownFigure,
  shownIn,
} from './layer-figures';
import { compareNotes } from './melody';
import { contentKey, sameContent, writingKey, type MeasureContent } from './shared-measures';
import { compareStrikes } from './strike';
import type { Figure, Id, Tune } from './tune';

export type { MeasureContent };

export interface MeasureChange {
  layerId: Id;
  measureId: Id;
  content: MeasureContent;
  /** `shared`: every measure that shows the figure in this layer changes; `this`: only this one. */
  scope: 'shared' | 'this';
}

/**
 * The tune with a measure written anew in one layer. Layers below keep what they show; layers above keep what they change
 * themselves and follow in the rest. A figure that this layer is the first to show keeps its id, and with it every pass;
 * one that a layer below shows stays there, and what was written becomes a figure of this layer. Content that equals a
 * figure of the tune shares it; content of the layer below gives the measure back to that layer. Figures that nothing shows
 * any more are kept, so that writing the old content again brings back their passes. Throws an Error for a layer or a measure that the tune does not have.
 */
export function changeMeasure(tune: Tune, change: MeasureChange, nextId: () => Id, now: Moment): Tune {
  const depth = layerDepth(tune, change.layerId);
  const figureId = shownFigure(tune, change.layerId, change.measureId);
  const content = inOrder(change.content);
  if (writingKey(figureById(tune, figureId)) === writingKey(content)) return tune;

  const showing = [...shownIn(tune, change.layerId)]
    .filter(([, id]) => id === figureId)
    .map(([measureId]) => measureId);
  const measures = change.scope === 'this' ? [change.measureId] : showing;
  const show = (target: Id, figures: readonly Figure[]): Tune =>
    showInLayer(
      { ...tune, figures },
      change.layerId,
      new Map(measures.map((measureId) => [measureId, target])),
      now.at,
    );

  const equal =
    equalBelow(tune, change, figureId, content) ?? equalFigure(tune, figureId, content, change.layerId);
  if (equal) return show(equal.id, tune.figures);
  if (!isShownBelow(tune, change.layerId, figureId) && measures.length === showing.length) {
    return writeOver(tune, { figureId, depth, content }, nextId, now);
  }
  const fresh: Figure = { id: nextId(), ...content, editedAt: now.at };
  return show(fresh.id, [...tune.figures, fresh]);
}

/** The figure itself takes the new content. Measures that layers above had set to it by themselves keep the old one, as a figure of theirs. */
function writeOver(
  tune: Tune,
  { figureId, depth, content }: { figureId: Id; depth: number; content: MeasureContent },
  nextId: () => Id,
  now: Moment,
): Tune {
  const old = figureById(tune, figureId);
  const figures = tune.figures.map((figure) =>
    figure === old ? { id: figureId, ...content, editedAt: now.at } : figure,
  );
  const onBoard = new Set(boardMeasures(tune).map(({ id }) => id));
  const naming = tune.layers
    .slice(depth + 1)
    .map(({ id, changes }) => ({
      id,
      measures: Object.keys(changes).filter(
        (measure) => changes[measure] === figureId && onBoard.has(measure),
      ),
    }))
    .filter(({ measures }) => measures.length > 0);
  if (naming.length === 0) return { ...tune, figures };
  const kept: Figure = { ...old, id: nextId(), editedAt: now.at };
  return naming.reduce<Tune>(
    (next, { id, measures }) =>
      changeLayer(next, id, (layer) => ({
        ...layer,
        changes: { ...layer.changes, ...recordOf(measures, kept.id) },
        changedAt: { ...layer.changedAt, ...recordOf(measures, now.at) },
      })),
    { ...tune, figures: [...figures, kept] },
  );
}

/** The figure of the layer below when the measure is to be as it is there, without tab too; not the one it shows already. */
function equalBelow(
  tune: Tune,
  { layerId, measureId }: MeasureChange,
  figureId: Id,
  content: MeasureContent,
): Figure | null {
  const below = figureBelow(tune, layerId, measureId);
  if (below === null || below === figureId) return null;
  const figure = figureById(tune, below);
  return sameContent(figure, content) ? figure : null;
}

/** Another figure with this content, one that this layer shows before one that it does not. */
function equalFigure(tune: Tune, figureId: Id, content: MeasureContent, layerId: Id): Figure | null {
  const key = contentKey(content);
  if (key === null) return null;
  const shown = new Set(shownIn(tune, layerId).values());
  const equals = tune.figures.filter((figure) => figure.id !== figureId && contentKey(figure) === key);
  return equals.find(({ id }) => shown.has(id)) ?? equals[0] ?? null;
}

function inOrder({ beats, strikes, melody }: MeasureContent): MeasureContent {
  return {
    beats,
    strikes: strikes && [...strikes].sort(compareStrikes),
    ...(melody && { melody: [...melody].sort(compareNotes) }),
  };
}

function recordOf<T>(keys: readonly Id[], value: T): Record<Id, T> {
  return Object.fromEntries(keys.map((key) => [key, value]));
}
