import { meterShape, type Meter } from './meter';
import { add, compare, divide, equal, rational, subtract, ZERO, type Rational } from './rational';

/** What the click plays: every beat, the down-stroke pulse (long, short-short), all eighths, the off-beats, nothing. */
export const PATTERNS = ['beat', 'down-stroke', 'eighths', 'off-beats', 'silent'] as const;
export type Pattern = (typeof PATTERNS)[number];

/** How strong a stroke is: the first of a measure, a beat, or one between the beats. */
export type Accent = 'first' | 'beat' | 'light';

export interface Stroke {
  /** In beats from the start of the measure. */
  at: Rational;
  accent: Accent;
}

/** Strokes that come again every `span` beats. */
interface Cycle {
  span: number;
  strokes: readonly Stroke[];
}

const ONE_BEAT: Cycle = { span: 1, strokes: [{ at: ZERO, accent: 'beat' }] };

/** Sets the long stroke at 0 and the short ones of the pulse at the given places. */
function pulse(span: number, ...shorts: readonly Rational[]): Cycle {
  const light = shorts.map((at): Stroke => ({ at, accent: 'light' }));
  return { span, strokes: [{ at: ZERO, accent: 'beat' }, ...light] };
}

/**
 * The pulse as each meter is written for this style (common practice): an eighth and two sixteenths in 2/4, a quarter
 * and two eighths in 2/2 and in 4/4 (there it takes two beats), a quarter and four eighths in 3/4, a quarter and two
 * sixteenths within the dotted quarter of 6/8 and 9/8.
 */
const DOWN_STROKE: Record<Meter, Cycle> = {
  '2/2': pulse(1, [1, 2], [3, 4]),
  '2/4': pulse(1, [1, 2], [3, 4]),
  '4/4': pulse(2, [1, 1], [3, 2]),
  '3/4': pulse(3, [1, 1], [3, 2], [2, 1], [5, 2]),
  '6/8': pulse(1, [2, 3], [5, 6]),
  '9/8': pulse(1, [2, 3], [5, 6]),
};

/**
 * The strokes of one measure of `beats` beats (it may be longer or shorter than the meter says), in order. The cycle
 * starts anew in every measure and is cut at its end. A pickup holds the last beats of a measure: its strokes are
 * counted from the bar line that ends it, and none of them is a first beat.
 */
export function strokesOfMeasure(
  pattern: Pattern,
  meter: Meter,
  beats: Rational,
  pickup = false,
): readonly Stroke[] {
  const full: Rational = [meterShape(meter).beats, 1];
  if (!pickup || compare(beats, full) >= 0) return strokesWithin(cycleOf(pattern, meter), beats, !pickup);
  const skipped = subtract(full, beats);
  return strokesWithin(cycleOf(pattern, meter), full, false)
    .filter((stroke) => compare(stroke.at, skipped) >= 0)
    .map(({ at, accent }) => ({ at: subtract(at, skipped), accent }));
}

function strokesWithin(cycle: Cycle, beats: Rational, hasFirst: boolean): Stroke[] {
  const strokes: Stroke[] = [];
  for (let start = 0; start * beats[1] < beats[0]; start += cycle.span) {
    for (const { at, accent } of cycle.strokes) {
      const place = add([start, 1], at);
      if (compare(place, beats) >= 0) continue;
      strokes.push({ at: place, accent: hasFirst && equal(place, ZERO) ? 'first' : accent });
    }
  }
  return strokes;
}

function cycleOf(pattern: Pattern, meter: Meter): Cycle {
  switch (pattern) {
    case 'beat':
      return ONE_BEAT;
    case 'down-stroke':
      return DOWN_STROKE[meter];
    case 'eighths':
      return eighths(meter);
    case 'off-beats':
      // halfway in simple meters, the last of the three eighths in compound ones (common practice)
      return {
        span: 1,
        strokes: [{ at: meterShape(meter).division === 2 ? [1, 2] : [2, 3], accent: 'beat' }],
      };
    case 'silent':
      return { span: 1, strokes: [] };
  }
}

function eighths(meter: Meter): Cycle {
  const [count] = divide(meterShape(meter).beat, [1, 8]);
  return pulse(1, ...Array.from({ length: count - 1 }, (_, index) => rational(index + 1, count)));
}
