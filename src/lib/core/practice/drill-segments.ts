import { meterShape, type Meter } from '../rhythm/meter';
import type { Pattern } from '../rhythm/patterns';
import type { Segment } from '../rhythm/segment';
import type { Stretch } from '../tune/places';

/** Measures of silence after a pass; `wait`: until a touch. */
export const BREATHS = ['1', '2', '4', 'wait'] as const;
export type Breath = (typeof BREATHS)[number];

/** One turn of a drill: a count-in, one pass or a handful, and the breath in which they are marked. */
export interface Turn {
  /** From 1: the number of its first pass in the drill. */
  firstPass: number;
  passes: number;
  /** Beats of the meter per minute. */
  tempo: number;
}

export interface DrillRhythm {
  meter: Meter;
  stretches: readonly Stretch[];
  pattern: Pattern;
  /** Measures counted in: 1 or 2. */
  countIn: number;
  breath: Breath;
}

/** The breath after a turn; the segments of the next turn follow it. */
export function breathId(turn: Turn): string {
  return `breath-${turn.firstPass}`;
}

/**
 * What the click plays for one turn, back to back. A passage that begins inside a measure (a seam) is counted in
 * up to its place in that measure.
 */
export function turnSegments(turn: Turn, rhythm: DrillRhythm): Segment[] {
  const { meter, stretches, pattern, countIn, breath } = rhythm;
  const { beats } = meterShape(meter);
  const leadIn = stretches[0]?.fromBeat ?? 0;
  const lead = Array.from({ length: countIn }, () => beats);
  const measures = stretches.map(({ fromBeat, toBeat }) => toBeat - fromBeat);
  const common = { meter, tempo: turn.tempo };
  const passes = Array.from({ length: turn.passes }, (_, index): Segment => ({
    ...common,
    id: `pass-${turn.firstPass + index}`,
    kind: 'pass',
    pattern,
    measures,
    ...(leadIn > 0 ? { pickup: true } : {}),
  }));
  return [
    {
      ...common,
      id: `count-in-${turn.firstPass}`,
      kind: 'count-in',
      pattern: 'beat',
      measures: leadIn > 0 ? [...lead, leadIn] : lead,
    },
    ...passes,
    breathSegment(turn, rhythm, breath),
  ];
}

function breathSegment(turn: Turn, { meter }: DrillRhythm, breath: Breath): Segment {
  const common = {
    id: breathId(turn),
    kind: 'breath' as const,
    meter,
    tempo: turn.tempo,
    pattern: 'silent' as const,
  };
  if (breath === 'wait') return { ...common, measures: [], waits: true };
  const { beats } = meterShape(meter);
  return { ...common, measures: Array.from({ length: Number(breath) }, () => beats) };
}
