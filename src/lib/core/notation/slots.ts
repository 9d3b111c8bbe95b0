import { divide, rational, type Rational } from '../rhythm/rational';
import { meterShape, type Meter } from '../rhythm/meter';

/**
 * The slots of tab in one beat: the evenly spaced places at which hand or thumb may sound a string. A measure of 2/4
 * has eight (sixteenths), of 4/4 eight (eighths), of 6/8 six (eighths) (common practice).
 */
const SLOTS_PER_BEAT: Record<Meter, number> = { '2/2': 4, '2/4': 4, '4/4': 2, '3/4': 2, '6/8': 3, '9/8': 3 };

export function slotsPerBeat(meter: Meter): number {
  return SLOTS_PER_BEAT[meter];
}

/** The length of one slot in whole notes. */
export function slotLength(meter: Meter): Rational {
  return divide(meterShape(meter).beat, rational(SLOTS_PER_BEAT[meter]));
}

/** An onset or duration in slots; a fraction where the tab is finer than the slots. */
export function inSlots(length: Rational, meter: Meter): Rational {
  return divide(length, slotLength(meter));
}
