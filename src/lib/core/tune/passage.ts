import type { Id } from './tune';

/**
 * Anything that can be drilled. A seam is the join of two figures wherever they meet, so that it is learned once,
 * as figures are. A phrase is a run of neighbouring measures of one part, both ends included.
 */
export type Passage =
  | { kind: 'figure'; tuneId: Id; figureId: Id }
  | { kind: 'seam'; tuneId: Id; fromFigureId: Id; toFigureId: Id }
  | { kind: 'phrase'; tuneId: Id; layerId: Id; fromMeasureId: Id; toMeasureId: Id }
  | { kind: 'part'; tuneId: Id; layerId: Id; part: string }
  | { kind: 'tune'; tuneId: Id; layerId: Id };

export type PassageKind = Passage['kind'];

/** A passage as a string: equal keys, same passage. The key is also the passage's id in headless output. */
export type PassageKey = string;

export function passageKey(passage: Passage): PassageKey {
  switch (passage.kind) {
    case 'figure':
      return `figure:${passage.tuneId}:${passage.figureId}`;
    case 'seam':
      return `seam:${passage.tuneId}:${passage.fromFigureId}:${passage.toFigureId}`;
    case 'phrase':
      return `phrase:${passage.tuneId}:${passage.layerId}:${passage.fromMeasureId}:${passage.toMeasureId}`;
    case 'part':
      return `part:${passage.tuneId}:${passage.layerId}:${passage.part}`;
    case 'tune':
      return `tune:${passage.tuneId}:${passage.layerId}`;
  }
}

/** The passage of a key, or `null` when the text is not a key. */
export function passageFromKey(key: PassageKey): Passage | null {
  const [kind, tuneId, second, third, fourth, ...rest] = key.split(':');
  if (!tuneId || rest.length > 0) return null;
  const count = [second, third, fourth].filter((part) => part !== undefined && part !== '').length;
  if (kind === 'figure' && count === 1 && second) return { kind, tuneId, figureId: second };
  if (kind === 'seam' && count === 2 && second && third) {
    return { kind, tuneId, fromFigureId: second, toFigureId: third };
  }
  if (kind === 'phrase' && second && third && fourth) {
    return { kind, tuneId, layerId: second, fromMeasureId: third, toMeasureId: fourth };
  }
  if (kind === 'part' && count === 2 && second && third)
    return { kind, tuneId, layerId: second, part: third };
  if (kind === 'tune' && count === 1 && second) return { kind, tuneId, layerId: second };
  return null;
}
