import { beatOf, type Meter } from '../rhythm/meter';
import { toNumber, type Rational } from '../rhythm/rational';
import { contentKey, type MeasureContent } from './shared-measures';
import type { Figure, Id, Tune } from './tune';
import { boardMeasures, shownIn } from './layer-figures';

/** A place in the measure where two figures differ. */
export interface Difference {
  onset: Rational;
  /** From 0. */
  beat: number;
}

/** Two figures of one layer that are nearly the same; the one that is met first on the board stands first. */
export interface NearSame {
  first: Figure;
  second: Figure;
  /** In order; empty when they sound the same and are learned apart all the same. */
  differences: readonly Difference[];
  /** All differences lie in the first or last beat of the measure. */
  within: 'first beat' | 'last beat' | null;
}

/** Above this share of its places a difference is scattered all over the measure; an edge beat may take up half. */
const SCATTERED = 1 / 4;
const HALF = 1 / 2;

/**
 * The pairs of a layer's figures that are nearly the same: of one length, differing in one place, or only in their first
 * or last beat, or in a quarter of their places at most; never in more than half. A place is an onset at which either
 * has a note; two places are the same when all notes on them are (strikes in tab, else pitches). Figures without either are
 * not compared. The nearest pairs come first, then in board order.
 */
export function nearSame(tune: Tune, layerId: Id): NearSame[] {
  const shown = new Set(shownIn(tune, layerId).values());
  const byId = new Map(tune.figures.map((figure) => [figure.id, figure]));
  const figures = [...shown].flatMap((id) => byId.get(id) ?? []).filter((one) => contentKey(one) !== null);
  const places = figures.map(placesOf);
  const pairs: NearSame[] = [];
  for (const [at, first] of figures.entries()) {
    for (let later = at + 1; later < figures.length; later += 1) {
      const second = figures[later];
      const [one, other] = [places[at], places[later]];
      if (!second || !one || !other || first.beats !== second.beats) continue;
      if ((first.strikes === null) !== (second.strikes === null)) continue;
      const near = compared(first, second, { one, other }, tune.meter);
      if (near) pairs.push(near);
    }
  }
  return pairs.sort((a, b) => a.differences.length - b.differences.length);
}

/** How many measures the board has, and how many figures a layer has. */
export function countToLearn(tune: Tune, layerId: Id): { measures: number; figures: number } {
  const figures = new Set(shownIn(tune, layerId).values()).size;
  return { measures: boardMeasures(tune).length, figures };
}

/** Onset -> what sounds there, as a string. */
type Places = ReadonlyMap<string, { onset: Rational; notes: string }>;

function placesOf({ strikes, melody = [] }: MeasureContent): Places {
  const places = new Map<string, { onset: Rational; notes: string }>();
  for (const note of strikes ?? melody) {
    const key = note.onset.join('/');
    const { onset: _, ...rest } = note;
    const notes = `${places.get(key)?.notes ?? ''}${JSON.stringify(rest)}`;
    places.set(key, { onset: note.onset, notes });
  }
  return places;
}

function compared(
  first: Figure,
  second: Figure,
  { one, other }: { one: Places; other: Places },
  meter: Meter,
): NearSame | null {
  const all = new Map([...one, ...other]);
  const differences = [...all]
    .filter(([key]) => one.get(key)?.notes !== other.get(key)?.notes)
    .map(([, { onset }]) => ({ onset, beat: beatOf(meter, onset) }))
    .sort((a, b) => toNumber(a.onset) - toNumber(b.onset));
  const share = all.size === 0 ? 0 : differences.length / all.size;
  if (share > HALF) return null;
  const within = differences.length === 0 ? null : edgeBeat(differences, first.beats);
  if (differences.length > 1 && !within && share > SCATTERED) return null;
  return { first, second, differences, within };
}

function edgeBeat(differences: readonly Difference[], beats: number): NearSame['within'] {
  if (beats < 2) return null;
  if (differences.every(({ beat }) => beat === Math.ceil(beats) - 1)) return 'last beat';
  return differences.every(({ beat }) => beat === 0) ? 'first beat' : null;
}
