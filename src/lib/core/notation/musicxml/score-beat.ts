import { meterShape, METERS } from '../../rhythm/meter';
import { rational, type Rational } from '../../rhythm/rational';
import type { ScoreMeter } from '../score';

/** One beat of any meter in whole notes: as `meterShape` counts it; of other compound meters a dotted unit (common practice). */
export function scoreBeat(meter: ScoreMeter | null): Rational {
  if (!meter) return [1, 4];
  const known = METERS.find((one) => one === `${meter.count}/${meter.unit}`);
  if (known) return meterShape(known).beat;
  const compound = meter.unit >= 8 && meter.count > 3 && meter.count % 3 === 0;
  return rational(compound ? 3 : 1, meter.unit);
}
