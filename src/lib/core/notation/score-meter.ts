import { METERS, meterShape, type Meter } from '../rhythm/meter';
import { rational, type Rational } from '../rhythm/rational';
import type { ScoreMeter } from './score';

/** The length of a measure of any meter, in whole notes. */
export function meterLength({ count, unit }: ScoreMeter): Rational {
  return rational(count, unit);
}

/**
 * The meter of this music that a tune in another meter is felt in: the one with the same beat, so that only the number
 * of beats in a measure is crooked. Compound meters are those that count eighths or shorter in threes (common practice).
 */
export function nearestMeter({ count, unit }: ScoreMeter): Meter {
  const same = METERS.find((meter) => meter === `${count}/${unit}`);
  if (same) return same;
  if (unit <= 2) return '2/2';
  if (unit >= 8 && count % 3 === 0) return '6/8';
  const quarters = (4 * count) / unit;
  if (quarters === 3) return '3/4';
  return quarters >= 4 && Number.isInteger(quarters) ? '4/4' : '2/4';
}

/**
 * What one beat of a score's tempo is, in whole notes: that of the meter that the score is felt in, so that the tempo
 * holds for the tune made of it; a quarter note in free meter.
 */
export function scoreBeat(meter: ScoreMeter | null): Rational {
  return meter ? meterShape(nearestMeter(meter)).beat : [1, 4];
}
