import {
  exactBeats,
  runBeats,
  runStrokes,
  type Run,
  type RunStroke,
  type SilentMeasures,
} from './click-times';
import { exactSwing } from './patterns';
import type { PluckCue } from './pluck-cue';
import { add, compare, ZERO, type Rational } from './rational';
import { exactTempo, rampedTempo, steadyTempo, type TempoMap } from './tempo-map';

export type SegmentKind = 'count-in' | 'pass' | 'breath';

/** One stretch of what is played: the click, and the string where it has plucks. Segments follow each other without a gap. */
export interface Segment extends Run {
  /** Unique within what is played, except that a segment may be replaced by another of the same id before it starts. */
  id: string;
  kind: SegmentKind;
  /** Beats of the meter per minute, to a tenth. */
  tempo: number;
  /** The tempo that a ramp comes to at the end of the segment, evenly in time; steady when left out. */
  toTempo?: number;
  /** Of the click, from 0 to 1, on top of the engine's own volume; 1 when left out. */
  volume?: number;
  /** The beats are counted aloud. */
  spoken?: boolean;
  /** What the string plays, in order of `at`. */
  plucks?: readonly PluckCue[];
  /** With no measures: the segment is silent and lasts until something follows it. */
  waits?: boolean;
}

/** What is due at a beat of a segment, counted from its start. */
export type Due =
  | { voice: 'click'; beat: Rational; stroke: RunStroke }
  | { voice: 'string'; beat: Rational; pluck: PluckCue };

/** Throws a RangeError that names the segment, the rule and what was seen, when a segment cannot be played. */
export function checkSegment(segment: Segment): void {
  const { id } = segment;
  try {
    checkTimes(segment);
    checkPlucks(segment);
  } catch (error) {
    throw new RangeError(`Segment ${id}: ${error instanceof Error ? error.message : String(error)}`, {
      cause: error,
    });
  }
}

function checkTimes({
  tempo,
  toTempo,
  measures,
  swing,
  silentMeasures,
  volume = 1,
  waits = false,
}: Segment): void {
  exactTempo(tempo);
  if (toTempo !== undefined) exactTempo(toTempo);
  if (swing !== undefined) exactSwing(swing);
  measures.forEach(exactBeats);
  if (waits !== (measures.length === 0)) {
    throw new RangeError(
      `it has measures, or it waits and has none: saw ${measures.length} measures and waits ${waits}`,
    );
  }
  if (!(volume >= 0 && volume <= 1)) throw new RangeError(`a volume lies between 0 and 1: saw ${volume}`);
  if (silentMeasures) checkSilentMeasures(silentMeasures);
}

/** Throws a RangeError unless they sound and are silent by whole numbers of measures, from 1. */
export function checkSilentMeasures({ on, off, before = 0 }: SilentMeasures): void {
  if (![on - 1, off - 1, before].every((number) => Number.isSafeInteger(number) && number >= 0)) {
    throw new RangeError(`measures sound and are silent by whole numbers from 1: saw ${on} and ${off}`);
  }
}

function checkPlucks(segment: Segment): void {
  let before = ZERO;
  const end = runBeats(segment);
  for (const { at } of segment.plucks ?? []) {
    if (compare(at, before) < 0 || compare(at, end) >= 0) {
      throw new RangeError(`plucks lie inside it, in order: saw one at beat ${at.join('/')}`);
    }
    before = at;
  }
}

/** How the tempo of a segment goes, from its own start. */
export function segmentTempo(segment: Segment): TempoMap {
  const { tempo, toTempo = tempo } = segment;
  return toTempo === tempo ? steadyTempo(tempo) : rampedTempo(tempo, toTempo, runBeats(segment));
}

/** All that is due in a segment, in order, one at a time; of two at the same beat the click comes first. */
export function* segmentDues(segment: Segment): Generator<Due, void, undefined> {
  const { plucks = [] } = segment;
  let next = 0;
  const pluckAt = (index: number) => plucks[index]?.at;
  for (const stroke of runStrokes(segment)) {
    for (let at = pluckAt(next); at && compare(at, stroke.beat) < 0; at = pluckAt(next)) {
      yield { voice: 'string', beat: at, pluck: plucks[next++]! };
    }
    yield { voice: 'click', beat: stroke.beat, stroke };
  }
  for (const pluck of plucks.slice(next)) yield { voice: 'string', beat: pluck.at, pluck };
}

/** Where the beats of a segment lie, the first of each measure included, in beats from its start. */
export function* segmentBeats({ measures }: Segment): Generator<Rational, void, undefined> {
  let start: Rational = ZERO;
  for (const measure of measures) {
    const [halves, by] = exactBeats(measure);
    for (let beat = 0; beat * by < halves; beat++) yield add(start, [beat, 1]);
    start = add(start, [halves, by]);
  }
}
