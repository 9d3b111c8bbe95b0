import { meterShape, type Meter } from './meter';
import { add, compare, divide, equal, multiply, rational, subtract, ZERO, type Rational } from './rational';

/**
 * What the click plays: every beat, the down-stroke pulse (long, short-short), all eighths, the off-beats, the drone's
 * place in the pulse, nothing.
 */
export const PATTERNS = ['beat', 'down-stroke', 'eighths', 'off-beats', 'drone', 'silent'] as const;
export type Pattern = (typeof PATTERNS)[number];

/** How strong a stroke is: the first of a part, of a measure, a beat, or one between the beats. */
export type Accent = 'part' | 'first' | 'beat' | 'light';

export interface Stroke {
  /** In beats from the start of the measure. */
  at: Rational;
  accent: Accent;
  /** Which beat of the measure it is, from 1; `null` between the beats. */
  count: number | null;
}

/** How the strokes of a measure lie. */
export interface StrokeStyle {
  /** The measure holds the last beats of a measure only. */
  pickup?: boolean;
  /** The first stroke of the measure is the first of a part. */
  part?: boolean;
  /** How long the first of two notes is to the second, from 1 (straight) to 2 (as in triplets); see `SWING_MAX`. */
  swing?: number;
}

export const SWING_MIN = 1;
export const SWING_MAX = 2;

/** Strokes that come again every `span` beats. */
interface Cycle {
  span: number;
  strokes: readonly { at: Rational; accent: Accent }[];
  /** Beats from the first to the third of the notes that swing; `null` when none do. */
  pair: Rational | null;
}

interface Pulse {
  span: number;
  shorts: readonly Rational[];
  drone: readonly Rational[];
  pair: Rational | null;
}

/**
 * The pulse as each meter is written for this style (common practice): an eighth and two sixteenths in 2/4, a quarter
 * and two eighths in 2/2 and in 4/4 (there it takes two beats), a quarter and four eighths in 3/4, a quarter and two
 * sixteenths within the dotted quarter of 6/8 and 9/8. The drone answers on the second of two short strokes.
 */
const PULSES: Record<Meter, Pulse> = {
  '2/2': pulse(1, [
    [1, 2],
    [3, 4],
  ]),
  '2/4': pulse(1, [
    [1, 2],
    [3, 4],
  ]),
  '4/4': pulse(2, [
    [1, 1],
    [3, 2],
  ]),
  '3/4': pulse(3, [
    [1, 1],
    [3, 2],
    [2, 1],
    [5, 2],
  ]),
  '6/8': {
    ...pulse(1, [
      [2, 3],
      [5, 6],
    ]),
    pair: null,
  },
  '9/8': {
    ...pulse(1, [
      [2, 3],
      [5, 6],
    ]),
    pair: null,
  },
};

function pulse(span: number, shorts: readonly Rational[]): Pulse {
  const [first = ZERO, second = ZERO] = shorts;
  const drone = shorts.filter((_, index) => index % 2 === 1);
  return { span, shorts, drone, pair: multiply([2, 1], subtract(second, first)) };
}

/** A swing as an exact ratio, to a hundredth. Throws a RangeError outside SWING_MIN..SWING_MAX, and for NaN. */
export function exactSwing(swing: number): Rational {
  if (!(swing >= SWING_MIN && swing <= SWING_MAX)) {
    throw new RangeError(`A swing lies between ${SWING_MIN} and ${SWING_MAX} to 1: saw ${swing}`);
  }
  return rational(Math.round(swing * 100), 100);
}

/**
 * The strokes of one measure of `beats` beats (it may be longer or shorter than the meter says), in order. The cycle
 * starts anew in every measure and is cut at its end. A pickup's strokes are counted from the bar line that ends it,
 * and none of them is a first beat. Swing makes the first of each two notes longer: of two eighths in `eighths` and
 * `off-beats`, of the two short strokes in `down-stroke` and `drone`; compound meters have no such pairs and do not swing.
 */
export function strokesOfMeasure(
  pattern: Pattern,
  meter: Meter,
  beats: Rational,
  { pickup = false, part = false, swing = SWING_MIN }: StrokeStyle = {},
): readonly Stroke[] {
  const full: Rational = [meterShape(meter).beats, 1];
  const cycle = cycleOf(pattern, meter);
  const first: Accent = part ? 'part' : 'first';
  if (!pickup || compare(beats, full) >= 0) return strokesWithin(cycle, beats, swing, pickup ? null : first);
  const skipped = subtract(full, beats);
  return strokesWithin(cycle, full, swing, null)
    .filter((stroke) => compare(stroke.at, skipped) >= 0)
    .map((stroke) => ({ ...stroke, at: subtract(stroke.at, skipped) }));
}

function strokesWithin(cycle: Cycle, beats: Rational, swing: number, first: Accent | null): Stroke[] {
  const strokes: Stroke[] = [];
  for (let start = 0; start * beats[1] < beats[0]; start += cycle.span) {
    for (const { at, accent } of cycle.strokes) {
      const place = add([start, 1], at);
      if (compare(place, beats) >= 0) continue;
      strokes.push({
        at: cycle.pair ? swung(place, cycle.pair, swing) : place,
        accent: first && equal(place, ZERO) ? first : accent,
        count: place[1] === 1 ? place[0] + 1 : null,
      });
    }
  }
  return strokes;
}

/** Where a stroke goes that lies, straight, in the middle of a pair; others stay. */
function swung(place: Rational, pair: Rational, swing: number): Rational {
  const pairs = divide(place, pair);
  if (pairs[1] !== 2) return place;
  const [long, short] = exactSwing(swing);
  const middle = subtract(place, divide(pair, [2, 1]));
  return add(middle, multiply(pair, rational(long, long + short)));
}

function cycleOf(pattern: Pattern, meter: Meter): Cycle {
  const { span, shorts, drone, pair } = PULSES[meter];
  const isSimple = meterShape(meter).division === 2;
  const eighth = divide([1, 8], meterShape(meter).beat);
  const eighths = isSimple ? multiply([2, 1], eighth) : null;
  switch (pattern) {
    case 'beat':
      return { span: 1, strokes: fromBeat([]), pair: null };
    case 'down-stroke':
      return { span, strokes: fromBeat(shorts), pair };
    case 'drone':
      return { span, strokes: between(drone), pair };
    case 'eighths':
      return { span: 1, strokes: fromBeat(multiples(eighth)), pair: eighths };
    case 'off-beats':
      // halfway in simple meters, the last of the three eighths in compound ones (common practice)
      return { span: 1, strokes: between([isSimple ? [1, 2] : [2, 3]]), pair: eighths };
    case 'silent':
      return { span: 1, strokes: [], pair: null };
  }
}

/** The long stroke on the beat and light ones after it. */
function fromBeat(shorts: readonly Rational[]): Cycle['strokes'] {
  return [{ at: ZERO, accent: 'beat' }, ...shorts.map((at) => ({ at, accent: 'light' as const }))];
}

/** Strokes that stand alone, with no beat to lean on. */
function between(places: readonly Rational[]): Cycle['strokes'] {
  return places.map((at) => ({ at, accent: 'beat' }));
}

/** The places inside one beat that are whole multiples of `part`. */
function multiples(part: Rational): Rational[] {
  const [count] = divide([1, 1], part);
  return Array.from({ length: count - 1 }, (_, index) => multiply([index + 1, 1], part));
}
