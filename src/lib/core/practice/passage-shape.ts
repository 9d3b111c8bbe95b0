import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import { figurePassages, partPassages, passageStretches, seamPassages } from '../tune/places';
import type { Id, Tune } from '../tune/tune';

/** The smallest things that are learned: what happens inside a measure, and how to get into the next. */
export type Link = Extract<Passage, { kind: 'figure' | 'seam' }>;

/** What a pass of a passage plays, for sharing its outcome among the links in it. */
export interface PassageShape {
  passage: Passage;
  key: PassageKey;
  /** Each link once, in the order in which the passage first comes to it. */
  links: readonly Link[];
  linkKeys: readonly PassageKey[];
  /** For each measure in playing order: how many of `links` have been played before the way into it. */
  heldBefore: readonly number[];
  /** For each measure in playing order: indices in `links` of its figure, then of the seam that leads into it. */
  atMeasure: readonly (readonly number[])[];
  /** Parts inside a whole tune, each once, in the order of the form; a clean tune is a clean pass of each. */
  parts: readonly Passage[];
  /** For each measure in playing order: the index in `parts` of its part; empty but for a whole tune. */
  partAt: readonly number[];
}

/** The shape of a passage, or `null` when it is no longer in the tune. */
export function passageShape(tune: Tune, passage: Passage): PassageShape | null {
  if (passage.tuneId !== tune.id) return null;
  const stretches = passageStretches(tune, passage);
  if (stretches.length === 0) return null;
  const key = passageKey(passage);
  if (passage.kind === 'figure' || passage.kind === 'seam') {
    const one = { links: [passage], linkKeys: [key], heldBefore: [0], atMeasure: [[0]] };
    return { passage, key, ...one, parts: [], partAt: [] };
  }
  const links: Link[] = [];
  const linkKeys: PassageKey[] = [];
  const places = new Map<PassageKey, number>();
  const placeOf = (link: Link): number => {
    const linkKey = passageKey(link);
    const known = places.get(linkKey);
    if (known !== undefined) return known;
    places.set(linkKey, links.length);
    linkKeys.push(linkKey);
    return links.push(link) - 1;
  };
  const heldBefore: number[] = [];
  const atMeasure: number[][] = [];
  let fromFigureId: Id | null = null;
  for (const { figure } of stretches) {
    heldBefore.push(links.length);
    const tuneId = tune.id;
    const seam: Link | null =
      fromFigureId === null ? null : { kind: 'seam', tuneId, fromFigureId, toFigureId: figure.id };
    const into = seam ? [placeOf(seam)] : [];
    atMeasure.push([placeOf({ kind: 'figure', tuneId, figureId: figure.id }), ...into]);
    fromFigureId = figure.id;
  }
  const parts = passage.kind === 'tune' ? partPassages(tune, passage.layerId) : [];
  const partAt =
    parts.length > 0 ? stretches.map(({ part }) => parts.findIndex((one) => one.part === part)) : [];
  return { passage, key, links, linkKeys, heldBefore, atMeasure, parts, partAt };
}

/** The links of a whole tune in one layer. */
export interface LayerLinks {
  figures: readonly Extract<Passage, { kind: 'figure' }>[];
  seams: readonly Extract<Passage, { kind: 'seam' }>[];
}

export function layerLinks(tune: Tune, layerId: Id): LayerLinks {
  return { figures: figurePassages(tune, layerId), seams: seamPassages(tune, layerId) };
}
