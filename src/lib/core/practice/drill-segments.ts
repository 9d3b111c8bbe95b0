import { countInMeasures, type SilentMeasures } from '../rhythm/click-times';
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
  /** From 1 (straight) to 2; 1 when left out. */
  swing?: number;
  /** Within the passes; the cycle runs on from pass to pass. */
  silentMeasures?: SilentMeasures;
  /** Measures counted in: 1 or 2. */
  countIn: number;
  /** The count-in is counted aloud. */
  spokenCount?: boolean;
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
  const { meter, stretches, countIn, spokenCount = false, breath } = rhythm;
  const passes = Array.from({ length: turn.passes }, (_, index) => passSegment(turn, index, rhythm));
  return [
    {
      id: `count-in-${turn.firstPass}`,
      kind: 'count-in',
      meter,
      tempo: turn.tempo,
      pattern: 'beat',
      measures: countInMeasures(meter, countIn, stretches[0]?.fromBeat),
      ...(spokenCount ? { spoken: true } : {}),
    },
    ...passes,
    breathSegment(turn, rhythm, breath),
  ];
}

function passSegment(turn: Turn, index: number, rhythm: DrillRhythm): Segment {
  const { meter, stretches, pattern, swing, silentMeasures } = rhythm;
  const number = turn.firstPass + index;
  const parts = partStarts(stretches);
  const before = (number - 1) * stretches.length;
  return {
    id: `pass-${number}`,
    kind: 'pass',
    meter,
    tempo: turn.tempo,
    pattern,
    measures: stretches.map(({ fromBeat, toBeat }) => toBeat - fromBeat),
    ...((stretches[0]?.fromBeat ?? 0) > 0 ? { pickup: true } : {}),
    ...(parts.length > 0 ? { parts } : {}),
    ...(swing === undefined ? {} : { swing }),
    ...(silentMeasures ? { silentMeasures: { ...silentMeasures, before } } : {}),
  };
}

/** Where a part begins from its first beat. */
function partStarts(stretches: readonly Stretch[]): number[] {
  return stretches.flatMap(({ index, fromBeat }, place) => (index === 0 && fromBeat === 0 ? [place] : []));
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
