import { beatOf, beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { add, compare, divide, equal, multiply, rational, subtract, type Rational } from '../rhythm/rational';
import { say } from '../../texts/spoken-tab';
import { slotsPerBeat } from './slots';

/** A place of the measure at which a string may be sounded. */
export interface GridPlace {
  onset: Rational;
  /** From 0. */
  beat: number;
  /** As it is counted: the beat's number, `e`, `&`, `a` (common practice); empty for places finer than that. */
  count: string;
  /** As it is said: `beat one`, `and`; never empty. */
  spoken: string;
}

/** How finely a beat is divided: as usual in the meter, each slot halved, or three in place of two (four in place of three in compound meters). */
export const GRAINS = ['usual', 'halved', 'triplet'] as const;
export type Grain = (typeof GRAINS)[number];

/** Slots of a beat at a grain. */
export function slotsAt(meter: Meter, grain: Grain): number {
  const usual = slotsPerBeat(meter);
  if (grain === 'halved') return usual * 2;
  if (grain === 'triplet') return usual === 3 ? 4 : 3;
  return usual;
}

const COUNTS: Record<number, readonly string[]> = {
  2: ['&'],
  3: ['&', 'a'],
  4: ['e', '&', 'a'],
  6: ['', '&', '', 'a', ''],
  8: ['', 'e', '', '&', '', 'a', ''],
};

/**
 * The places of a measure in order: the slots of each beat at its grain (`grains[beat]`, the usual one where it is not
 * said), and every place at which something stands already (`taken`), so that all of it can be reached.
 */
export function gridPlaces(
  meter: Meter,
  beats: number,
  grains: readonly Grain[],
  taken: readonly Rational[],
): GridPlace[] {
  const end = beatsToWholeNotes(meter, beats);
  const places: GridPlace[] = [];
  for (let beat = 0; beat < Math.ceil(beats); beat++) {
    const slots = slotsAt(meter, grains[beat] ?? 'usual');
    for (let slot = 0; slot < slots; slot++) {
      const onset = add(
        beatStart(meter, beat),
        divide(multiply(meterShape(meter).beat, rational(slot)), rational(slots)),
      );
      if (compare(onset, end) < 0) places.push(named(onset, beat, slot, slots));
    }
  }
  for (const onset of taken) {
    if (compare(onset, end) >= 0 || places.some((place) => equal(place.onset, onset))) continue;
    const beat = beatOf(meter, onset);
    places.push({ onset, beat, count: '', spoken: say.inBeat(beat + 1) });
  }
  return places.sort((a, b) => compare(a.onset, b.onset));
}

/** The grain at which everything in a beat stands on a slot; the usual one when none fits. */
export function grainsFor(meter: Meter, beats: number, taken: readonly Rational[]): Grain[] {
  return Array.from({ length: Math.ceil(beats) }, (_, beat) => {
    const inside = taken
      .filter((onset) => beatOf(meter, onset) === beat)
      .map((onset) => divide(subtract(onset, beatStart(meter, beat)), meterShape(meter).beat));
    const fits = (grain: Grain): boolean =>
      inside.every((part) => multiply(part, rational(slotsAt(meter, grain)))[1] === 1);
    return GRAINS.find(fits) ?? 'usual';
  });
}

function beatStart(meter: Meter, beat: number): Rational {
  return multiply(meterShape(meter).beat, rational(beat));
}

function named(onset: Rational, beat: number, slot: number, slots: number): GridPlace {
  if (slot === 0) return { onset, beat, count: String(beat + 1), spoken: say.beat(beat + 1) };
  const count = COUNTS[slots]?.[slot - 1] ?? '';
  return { onset, beat, count, spoken: say.placeOfBeat(beat + 1, count, slot + 1, slots) };
}
