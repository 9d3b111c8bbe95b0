import { exactBeats, type Run } from './click-times';
import { exactTempo } from './tempo-map';

export type SegmentKind = 'count-in' | 'pass' | 'breath';

/** One stretch of what the click plays. Segments follow each other without a gap. */
export interface Segment extends Run {
  /** Unique within what is played, except that a segment may be replaced by another of the same id before it starts. */
  id: string;
  kind: SegmentKind;
  /** Beats of the meter per minute, to a tenth. */
  tempo: number;
  /** From 0 to 1, on top of the engine's own volume; 1 when left out. */
  volume?: number;
  /** With no measures: the segment is silent and lasts until something follows it. */
  waits?: boolean;
}

/** Throws a RangeError that names the segment, the rule and what was seen, when a segment cannot be played. */
export function checkSegment(segment: Segment): void {
  const { id, tempo, measures, volume = 1, waits = false } = segment;
  try {
    exactTempo(tempo);
    measures.forEach(exactBeats);
  } catch (error) {
    throw new RangeError(`Segment ${id}: ${error instanceof Error ? error.message : String(error)}`, {
      cause: error,
    });
  }
  if (waits !== (measures.length === 0)) {
    throw new RangeError(
      `Segment ${id}: it has measures, or it waits and has none: saw ${measures.length} measures and waits ${waits}`,
    );
  }
  if (!(volume >= 0 && volume <= 1)) {
    throw new RangeError(`Segment ${id}: a volume lies between 0 and 1: saw ${volume}`);
  }
}
