import { compare, divide, multiply, rational, toNumber, type Rational } from './rational';

/** The meters of this music, as printed at the head of a tune. */
export const METERS = ['2/2', '2/4', '4/4', '3/4', '6/8', '9/8'] as const;
export type Meter = (typeof METERS)[number];

/**
 * What one beat of the meter is, in whole notes, and how many make a measure. Tempos are always given in these
 * beats per minute. Compound meters are felt in dotted quarters (common practice).
 */
export interface MeterShape {
  beat: Rational;
  beats: number;
  /** Equal parts that one beat is felt in: 2 in simple meters, 3 in compound ones. */
  division: 2 | 3;
}

const SHAPES: Record<Meter, MeterShape> = {
  '2/2': { beat: [1, 2], beats: 2, division: 2 },
  '2/4': { beat: [1, 4], beats: 2, division: 2 },
  '4/4': { beat: [1, 4], beats: 4, division: 2 },
  '3/4': { beat: [1, 4], beats: 3, division: 2 },
  '6/8': { beat: [3, 8], beats: 2, division: 3 },
  '9/8': { beat: [3, 8], beats: 3, division: 3 },
};

export function meterShape(meter: Meter): MeterShape {
  return SHAPES[meter];
}

/** The length in whole notes of a number of beats (a multiple of one half) of the meter. */
export function beatsToWholeNotes(meter: Meter, beats: number): Rational {
  return multiply(SHAPES[meter].beat, rational(Math.round(beats * 2), 2));
}

/** The first of some strikes, notes or labels that begins at or after the end of `beats` beats, or `undefined`. */
export function firstOutside<T extends { onset: Rational }>(
  things: readonly T[],
  meter: Meter,
  beats: number,
): T | undefined {
  const end = beatsToWholeNotes(meter, beats);
  return things.find(({ onset }) => compare(onset, end) >= 0);
}

/** The beat, from 0, in which a place of a measure lies (`onset` in whole notes from its start). */
export function beatOf(meter: Meter, onset: Rational): number {
  return Math.floor(toNumber(divide(onset, SHAPES[meter].beat)) + 1e-9);
}

/** The range of tempos that the program plays and records, in beats per minute. */
export const TEMPO_MIN = 20;
export const TEMPO_MAX = 300;
