import { meterShape, type Meter } from '../rhythm/meter';
import type { Moment } from '../time/moment';
import type { MelodyNote } from './melody';
import type { Setup } from './tuning';
import type { Strike } from './strike';
import type { Figure, Id, MeasureLabel, Origin, Part, Pickup, Tune } from './tune';

/** A measure before it has an identity: its length in beats, its tab, and which earlier measure it equals. */
export interface MeasureDraft {
  beats: number;
  strikes: readonly Strike[] | null;
  melody?: readonly MelodyNote[];
  labels?: readonly MeasureLabel[];
  /** Board place of the measure whose figure this one shares; `null` makes a figure of its own. */
  sameAs: { part: string; index: number } | null;
  /** The measure and the figure that this one already is, when a tune in the book is being edited. */
  id?: Id;
  figureId?: Id;
}

export interface PartDraft {
  name: string;
  measures: readonly MeasureDraft[];
}

export interface TuneDraft extends Setup {
  title: string;
  key: string;
  meter: Meter;
  goalTempo: number;
  form: string;
  parts: readonly PartDraft[];
  pickup: Pickup | null;
}

/** Parts of empty measures of the meter's own length, `counts[i]` measures in the i-th part of the form. */
export function emptyParts(form: string, counts: readonly number[], meter: Meter): PartDraft[] {
  const { beats } = meterShape(meter);
  return [...new Set(form)].map((name, index) => ({
    name,
    measures: Array.from({ length: counts[index] ?? 8 }, () => ({ beats, strikes: null, sameAs: null })),
  }));
}

/**
 * A new tune with its ids. `nextId` gives a fresh UUIDv7 at each call. Throws an Error when a `sameAs` points at a
 * measure that is not earlier on the board.
 */
export function makeTune(draft: TuneDraft, nextId: () => Id, now: Moment, origin: Origin = 'own'): Tune {
  const figures: Figure[] = [];
  const figureIds = new Map<string, Id>();
  const parts: Part[] = draft.parts.map((part) => ({
    name: part.name,
    measures: part.measures.map(({ beats, strikes, melody, labels, sameAs }, index) => {
      const shared = sameAs && figureIds.get(`${sameAs.part}${sameAs.index}`);
      if (sameAs && !shared) {
        throw new Error(
          `${part.name}${index + 1} is to be the same as ${sameAs.part}${sameAs.index + 1}, which comes later`,
        );
      }
      const figureId = shared ?? nextId();
      if (!shared)
        figures.push({ id: figureId, beats, strikes, ...(melody && { melody }), editedAt: now.at });
      figureIds.set(`${part.name}${index}`, figureId);
      return { id: nextId(), figureId, ...(labels && { labels }), editedAt: now.at };
    }),
  }));
  const { tuning, capo, spike, title, key, meter, goalTempo, form, pickup } = draft;
  return {
    id: nextId(),
    ...{ title, tuning, capo, spike, key, meter, goalTempo, form, parts, figures, pickup, origin },
    layers: [{ id: nextId(), name: 'plain', changes: {} }],
    added: now,
    editedAt: now.at,
    archived: false,
    deletedAt: null,
  };
}
