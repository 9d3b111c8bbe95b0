import type { MeasureDraft, PartDraft } from './make-tune';

/** A measure's place in a draft. */
export interface DraftPlace {
  part: string;
  index: number;
}

/** The measure whose figure a place shows: itself, unless it shares an earlier one. */
export function sourceOf(parts: readonly PartDraft[], place: DraftPlace): DraftPlace {
  const source = measureAt(parts, place)?.sameAs;
  return source ? sourceOf(parts, source) : place;
}

/**
 * The draft after the learner has said that two measures are the same: the later one on the board takes the
 * earlier one's figure, and with it everything that shared the later one's. Measures of different lengths cannot
 * be the same; `null` then.
 */
export function shareMeasures(parts: readonly PartDraft[], a: DraftPlace, b: DraftPlace): PartDraft[] | null {
  const [first, second] = [sourceOf(parts, a), sourceOf(parts, b)];
  if (samePlace(first, second)) return [...parts];
  const [earlier, later] = comesBefore(parts, first, second) ? [first, second] : [second, first];
  if (measureAt(parts, earlier)?.beats !== measureAt(parts, later)?.beats) return null;
  return mapMeasures(parts, (measure, place) =>
    samePlace(sourceOf(parts, place), later) ? { ...measure, sameAs: earlier } : measure,
  );
}

/** The draft after a measure has been set on its own again. The measures that shared its figure stay together. */
export function splitMeasure(parts: readonly PartDraft[], place: DraftPlace): PartDraft[] {
  const measure = measureAt(parts, place);
  if (!measure) return [...parts];
  const source = sourceOf(parts, place);
  if (!samePlace(source, place)) {
    const shown = measureAt(parts, source) ?? measure;
    return mapMeasures(parts, (other, at) =>
      samePlace(at, place) ? { ...withContent(other, shown), sameAs: null } : other,
    );
  }
  const heirs = placesOf(parts).filter(
    (at) => !samePlace(at, place) && samePlace(sourceOf(parts, at), place),
  );
  const heir = heirs[0];
  if (!heir) return [...parts];
  return mapMeasures(parts, (other, at) => {
    if (samePlace(at, heir)) return { ...withContent(other, measure), sameAs: null };
    return heirs.some((shared) => samePlace(shared, at)) ? { ...other, sameAs: heir } : other;
  });
}

/**
 * The draft with `count` measures in a part; new ones have `beats` beats. Measures that shared one that is taken
 * away stand on their own.
 */
export function resizePart(
  parts: readonly PartDraft[],
  name: string,
  count: number,
  beats: number,
): PartDraft[] {
  const part = parts.find((candidate) => candidate.name === name);
  if (!part) return [...parts];
  let draft: readonly PartDraft[] = parts;
  for (let index = part.measures.length - 1; index >= count; index -= 1)
    draft = splitMeasure(draft, { part: name, index });
  return draft.map((candidate) => {
    if (candidate.name !== name) return candidate;
    const measures = candidate.measures.slice(0, count);
    while (measures.length < count) measures.push({ beats, strikes: null, sameAs: null });
    return { ...candidate, measures };
  });
}

/** How many figures a draft has: measures to learn. */
export function figureCount(parts: readonly PartDraft[]): number {
  return placesOf(parts).filter((place) => samePlace(sourceOf(parts, place), place)).length;
}

export function samePlace(a: DraftPlace, b: DraftPlace): boolean {
  return a.part === b.part && a.index === b.index;
}

export function measureAt(
  parts: readonly PartDraft[],
  { part, index }: DraftPlace,
): MeasureDraft | undefined {
  return parts.find(({ name }) => name === part)?.measures[index];
}

/** Every place of a draft in board order. */
export function placesOf(parts: readonly PartDraft[]): DraftPlace[] {
  return parts.flatMap(({ name, measures }) => measures.map((_, index) => ({ part: name, index })));
}

/** A measure with what another one sounds. */
function withContent(measure: MeasureDraft, { beats, strikes, melody }: MeasureDraft): MeasureDraft {
  const { melody: _, ...rest } = measure;
  return { ...rest, beats, strikes, ...(melody && { melody }) };
}

function comesBefore(parts: readonly PartDraft[], a: DraftPlace, b: DraftPlace): boolean {
  const order = parts.map(({ name }) => name);
  return a.part === b.part ? a.index < b.index : order.indexOf(a.part) < order.indexOf(b.part);
}

function mapMeasures(
  parts: readonly PartDraft[],
  change: (measure: MeasureDraft, place: DraftPlace) => MeasureDraft,
): PartDraft[] {
  return parts.map(({ name, measures }) => ({
    name,
    measures: measures.map((measure, index) => change(measure, { part: name, index })),
  }));
}
