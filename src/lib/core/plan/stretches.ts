import type { Played } from './gain';
import { phraseIn, type Link, type PartLink } from './tune-map';
import type { LinkState, TuneState } from './tune-state';

/** A passage of known measures that can be drilled. */
export interface Stretch extends Played {
  /** The place of the part in the layer, and the index and count of the measures in it; `null` for a join and for the whole tune. */
  where: { part: PartLink; from: number; count: number } | null;
  link: () => Link;
}

/** Runs that hold a hard measure with its surroundings; a longer part is also taken by the eight. */
const PHRASES = [2, 3, 4] as const;
const LONG_PHRASE = 8;

/**
 * What can be drilled of the measures that have been played: each alone, joins, runs within a part, parts, the whole.
 * Runs of the same measures are one.
 */
export function stretchesOf(state: TuneState): Stretch[] {
  const { map, figures, seams } = state;
  const seamsFrom = figures.length;
  const isKnown = (place: number) => played(figures[place]!);
  const found: Stretch[] = [];
  const seen = new Set<string>();
  const add = (links: readonly number[], beats: number, where: Stretch['where'], link: () => Link) => {
    const name = links.join();
    if (seen.has(name)) return;
    seen.add(name);
    found.push({ links, beats, where, link });
  };
  for (const part of map.parts) {
    const { places, joins } = part;
    for (const count of countsIn(places.length)) {
      const step = count === LONG_PHRASE ? LONG_PHRASE / 2 : 1;
      for (let from = 0; from + count <= places.length; from += step) {
        const own = places.slice(from, from + count);
        if (!own.every(isKnown)) continue;
        const links = [...own, ...joins.slice(from, from + count - 1).map((join) => seamsFrom + join)];
        const beats = own.reduce((sum, place) => sum + map.figures[place]!.beats, 0);
        const link = () => linkIn(state, part, from, count);
        add(links, beats, { part, from, count }, link);
      }
    }
  }
  for (const [place, seam] of seams.entries()) {
    const { from, to, beats } = seam.link;
    const isOpen = played(seam) || [from, to].every((end) => figures[end]!.standing.isSettled);
    if (isOpen) add([seamsFrom + place], beats, null, () => seam.link);
  }
  const { whole } = map;
  if (whole.places.every(isKnown)) {
    const links = [...whole.places, ...whole.joins.map((join) => seamsFrom + join)];
    add(links, whole.beats, null, () => whole);
  }
  return found;
}

function countsIn(measures: number): number[] {
  const shorter = [1, ...PHRASES, LONG_PHRASE].filter((count) => count < measures);
  return [...shorter, measures];
}

function linkIn(state: TuneState, part: PartLink, from: number, count: number): Link {
  return count > 1 && count === part.places.length ? part : runIn(state, part, from, count);
}

/** Neighbouring measures of a part: one alone is its figure, more are a phrase. */
export function runIn(state: TuneState, part: PartLink, from: number, count: number): Link {
  return count === 1 ? state.map.figures[part.places[from]!]! : phraseIn(state, part, from, count);
}

export const played = ({ standing }: Pick<LinkState, 'standing'>) => standing.passes > 0;
