import type { Moment } from '../time/moment';
import { fitFigures } from './fit-figures';
import type { MeasureDraft, PartDraft, TuneDraft } from './make-tune';
import { makeTune } from './make-tune';
import type { Figure, Id, Measure, Part, Tune } from './tune';

/** A tune as a draft to edit: its first layer, each shared figure carried by the measure that shows it first. */
export function draftOf(tune: Tune): TuneDraft {
  const firstPlace = new Map<Id, { part: string; index: number }>();
  const figures = new Map(tune.figures.map((figure) => [figure.id, figure]));
  const parts: PartDraft[] = tune.parts.map(({ name, measures }) => ({
    name,
    measures: measures.map((measure, index) => {
      const sameAs = firstPlace.get(measure.figureId) ?? null;
      if (!sameAs) firstPlace.set(measure.figureId, { part: name, index });
      const figure = figures.get(measure.figureId);
      return {
        beats: figure?.beats ?? 0,
        strikes: figure?.strikes ?? null,
        ...(figure?.melody && { melody: figure.melody }),
        ...(measure.labels && { labels: measure.labels }),
        sameAs,
        id: measure.id,
        figureId: measure.figureId,
      };
    }),
  }));
  const { title, tuning, capo, spike, key, meter, goalTempo, form, pickup } = tune;
  return { title, tuning, capo, spike, key, meter, goalTempo, form, pickup, parts };
}

/**
 * The tune after an edit. Measures and figures keep their ids, so every pass stays on its figure; a measure split
 * off from a shared figure gets a new one, and figures that no measure shows any more are kept, so that an edit can bring
 * them back with their passes. Throws an Error as `makeTune` does.
 */
export function editTune(tune: Tune, draft: TuneDraft, nextId: () => Id, now: Moment): Tune {
  const claimed = new Set<Id>();
  const ids = new Map<string, Id>();
  const figures = new Map(tune.figures.map((figure) => [figure.id, figure]));
  const oldMeasures = new Map(
    [...tune.parts.flatMap(({ measures }) => measures), ...(tune.shelf ?? [])].map((measure) => [
      measure.id,
      measure,
    ]),
  );
  // makeTune lays the draft out and checks it; here its fresh ids give way to the ones that the log knows
  const fresh = makeTune(draft, nextId, now);
  const drafts = new Map(draft.parts.map(({ name, measures }) => [name, measures]));
  const parts: Part[] = fresh.parts.map(({ name, measures }) => ({
    name,
    measures: measures.map((measure, index) => {
      const wanted: MeasureDraft | undefined = drafts.get(name)?.[index];
      const figureId = ids.get(measure.figureId) ?? keptFigure(wanted, measure.figureId, claimed);
      ids.set(measure.figureId, figureId);
      return kept(oldMeasures.get(wanted?.id ?? ''), { ...measure, figureId });
    }),
  }));
  for (const figure of fresh.figures) {
    const id = ids.get(figure.id) ?? figure.id;
    figures.set(id, keptContent(figures.get(id), { ...figure, id }));
  }
  const onBoard = new Set(parts.flatMap(({ measures }) => measures.map(({ id }) => id)));
  const shelf = [...oldMeasures.values()].filter(({ id }) => !onBoard.has(id));
  const { title, tuning, capo, spike, key, meter, goalTempo, form, pickup } = draft;
  const { shelf: _, ...rest } = tune;
  return fitFigures({
    ...rest,
    ...{ title, tuning, capo, spike, key, meter, goalTempo, form, pickup, parts },
    ...(shelf.length > 0 ? { shelf } : {}),
    figures: [...figures.values()],
    editedAt: now.at,
  });
}

/** The figures that an edit would take off the board: what was played on them stays in the log but counts no more. */
export function figuresTakenOff(before: Tune, after: Tune): Id[] {
  const shown = (tune: Tune): Set<Id> =>
    new Set(tune.parts.flatMap(({ measures }) => measures.map(({ figureId }) => figureId)));
  const still = shown(after);
  return [...shown(before)].filter((id) => !still.has(id));
}

function keptFigure(wanted: MeasureDraft | undefined, freshId: Id, claimed: Set<Id>): Id {
  if (!wanted?.figureId || claimed.has(wanted.figureId)) return freshId;
  claimed.add(wanted.figureId);
  return wanted.figureId;
}

function kept(old: Measure | undefined, next: Measure): Measure {
  if (!old) return next;
  const isSame = old.figureId === next.figureId && JSON.stringify(old.labels) === JSON.stringify(next.labels);
  return isSame ? old : { ...next, id: old.id };
}

function keptContent(old: Figure | undefined, next: Figure): Figure {
  const isSame =
    old?.beats === next.beats &&
    JSON.stringify([old.strikes, old.melody]) === JSON.stringify([next.strikes, next.melody]);
  return old && isSame ? old : next;
}

/**
 * A draft that was begun on `base`, laid over the tune as it is `now`: what the draft leaves as it was in `base` is left as
 * it is now, so that an edit of the title undoes no measure that was written elsewhere meanwhile. The board (form, meter,
 * pickup, measures) is one thing.
 */
export function draftOver(now: TuneDraft, base: TuneDraft, draft: TuneDraft): TuneDraft {
  const board = ({ form, meter, pickup, parts }: TuneDraft): Partial<TuneDraft> => ({
    ...{ form, meter, pickup, parts },
  });
  const isBoardLeft = JSON.stringify(board(draft)) === JSON.stringify(board(base));
  const left = Object.keys(base).filter((key) => {
    const name = key as keyof TuneDraft;
    if (name in board(base)) return isBoardLeft;
    return JSON.stringify(draft[name]) === JSON.stringify(base[name]);
  });
  return { ...draft, ...Object.fromEntries(left.map((key) => [key, now[key as keyof TuneDraft]])) };
}
