import { makeTune, type MeasureDraft, type PartDraft } from '$lib/core/tune/make-tune';
import { firstLayer, playedPlaces } from '$lib/core/tune/places';
import type { Tune } from '$lib/core/tune/tune';
import type { Tuning } from '$lib/core/tune/tuning';
import { seededDraw } from '../../../sample-data/made-up-learner';
import type { BenchTune } from './contract';

/** Eighteen o'clock of the first practice day, epoch milliseconds. */
export const FIRST_DAY = Date.UTC(2026, 0, 5, 18);

/** Tunings that a repertoire of this music needs, the commonest first (SCIENCE.md section 4, common practice). */
const TUNINGS: readonly Tuning[] = [
  [67, 50, 55, 59, 62],
  [67, 48, 55, 60, 62],
  [67, 50, 55, 60, 62],
];
const PART_MEASURES = 8;

/**
 * Tunes of sixteen measures of two beats, form AB, with goals of 92 to 120 and some measures shared, as in the trade:
 * the second half of a part begins like the first, and parts end alike.
 */
export function madeTunes(count: number, seed: number): Tune[] {
  const random = seededDraw(seed * 7919 + 17);
  return Array.from({ length: count }, (_, number) => madeTune(number, random));
}

function madeTune(number: number, random: () => number): Tune {
  let made = 0;
  const parts = ['A', 'B'].map((name): PartDraft => {
    const measures = Array.from({ length: PART_MEASURES }, (_, index) => measure(name, index, random));
    return { name, measures };
  });
  const tuning = TUNINGS[number % 5 < 3 ? 0 : (number % 5) - 2] ?? TUNINGS[0]!;
  return makeTune(
    {
      title: `Tune ${number + 1}`,
      ...{ form: 'AB', meter: '2/2', goalTempo: 92 + 4 * Math.floor(8 * random()) },
      ...{ tuning, capo: 0, spike: 0, key: '', pickup: null, parts },
    },
    () => `t${number}n${made++}`,
    { at: FIRST_DAY, offsetMin: 0 },
  );
}

function measure(part: string, index: number, random: () => number): MeasureDraft {
  const plain = { beats: 2, strikes: null };
  const half = PART_MEASURES / 2;
  if (index >= half && index < half + 2 && random() < 0.75) {
    return { ...plain, sameAs: { part, index: index - half } };
  }
  if (part === 'B' && index === PART_MEASURES - 1 && random() < 0.6) {
    return { ...plain, sameAs: { part: 'A', index } };
  }
  return { ...plain, sameAs: null };
}

/** The tune as a learner module sees it. */
export function benchTune(tune: Tune): BenchTune {
  return {
    ...{ id: tune.id, goal: tune.goalTempo, beats: 2 },
    figures: playedPlaces(tune, firstLayer(tune).id).map(({ figure }) => figure.id),
  };
}
