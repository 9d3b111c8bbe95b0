import type { Figure } from '../figure';
import { METERS, meterShape, type Meter } from '../../../src/lib/core/rhythm/meter';
import type { Segment } from '../../../src/lib/core/rhythm/segment';
import { LEAD_SEC, SoundRenderer } from '../../../src/lib/core/rhythm/sound-render';

const RATE = 44_100;
const MINUTES = 30;
const BLOCK = 128;
/** The rim's clicks are 30 ms long, and the densest strokes here, in 6/8 at 240, are 42 ms apart. */
const SILENCE_FRAMES = 0.002 * RATE;

/** Twelfths of a beat at which the down-stroke pulse falls, written apart from the app's own table (common practice). */
const PULSES: Record<Meter, { span: number; twelfths: readonly number[] }> = {
  '2/2': { span: 1, twelfths: [0, 6, 9] },
  '2/4': { span: 1, twelfths: [0, 6, 9] },
  '4/4': { span: 2, twelfths: [0, 12, 18] },
  '3/4': { span: 3, twelfths: [0, 12, 18, 24, 30] },
  '6/8': { span: 1, twelfths: [0, 8, 10] },
  '9/8': { span: 1, twelfths: [0, 8, 10] },
};

/** A stretch of whole measures, in tenths of beats a minute. */
interface Stretch {
  beats: number;
  from: bigint;
  to: bigint;
}

interface Course {
  name: string;
  stretches: (meter: Meter) => Stretch[];
}

const COURSES: readonly Course[] = [
  { name: 'steady', stretches: (meter) => [lasting(meter, 973n, 973n, MINUTES)] },
  { name: 'climb', stretches: (meter) => climb(meter) },
  { name: 'ramp', stretches: (meter) => [lasting(meter, 600n, 2399n, MINUTES)] },
];

/** Whole measures that last about so long. */
function lasting(meter: Meter, from: bigint, to: bigint, minutes: number): Stretch {
  const { beats } = meterShape(meter);
  return { from, to, beats: Math.ceil((minutes * Number(from + to)) / 20 / beats) * beats };
}

/** Up by steps of 3 % from 60 to 240, each for a like part of the time. */
function climb(meter: Meter): Stretch[] {
  const tempos = Array.from({ length: 48 }, (_, step) => BigInt(Math.round(600 * 1.03 ** step)));
  return tempos.map((tempo) => lasting(meter, tempo, tempo, MINUTES / tempos.length));
}

/** The whole root of a whole number, by halving. */
function root(value: bigint): bigint {
  let [low, high] = [0n, value + 1n];
  while (high - low > 1n) {
    const middle = (low + high) >> 1n;
    if (middle * middle <= value) low = middle;
    else high = middle;
  }
  return low;
}

const BITS = 80n;

/**
 * Where a beat (in twelfths) of a stretch lies, in samples times 2^BITS: with u the tempo there, `u^2 = v^2 + (w^2 - v^2) b / B`,
 * so many minutes at the mean tempo `(v + u) / 2`. Within 2^-60 of a sample.
 */
function place({ beats, from, to }: Stretch, twelfths: bigint): bigint {
  const length = 12n * BigInt(beats);
  const u =
    root(((from * from * length + (to * to - from * from) * twelfths) * length) << (2n * BITS)) / length;
  // minutes = 2 b / (v + u), tempos in tenths
  const minutes = ((20n * twelfths) << (2n * BITS)) / (12n * ((from << BITS) + u));
  return minutes * 60n * BigInt(RATE);
}

/** Exact places of all strokes, in samples times 2^BITS. */
function* exactPlaces(meter: Meter, stretches: readonly Stretch[]): Generator<bigint> {
  const { span, twelfths } = PULSES[meter];
  const measure = meterShape(meter).beats;
  let start = 0n;
  for (const stretch of stretches) {
    for (let bar = 0; bar < stretch.beats; bar += measure) {
      for (let cycle = bar; cycle < bar + measure; cycle += span) {
        for (const at of twelfths) yield start + place(stretch, BigInt(12 * cycle + at));
      }
    }
    start += place(stretch, BigInt(12 * stretch.beats));
  }
}

function segments(meter: Meter, stretches: readonly Stretch[]): Segment[] {
  const { beats } = meterShape(meter);
  return stretches.map((stretch, index) => ({
    ...{ id: `${index}`, kind: 'pass', meter, pattern: 'down-stroke' },
    tempo: Number(stretch.from) / 10,
    toTempo: Number(stretch.to) / 10,
    measures: Array.from({ length: stretch.beats / beats }, () => beats),
  }));
}

/** The first sample of each click in what is rendered, counted from the end of the lead. */
function* renderedClicks(played: readonly Segment[]): Generator<number> {
  const renderer = new SoundRenderer(RATE);
  renderer.take({ type: 'click-sound', sound: 'rim' });
  renderer.take({ type: 'play', segments: played });
  const lead = Math.round(LEAD_SEC * RATE);
  const block = new Float32Array(BLOCK);
  let [last, isOver] = [-Infinity, false];
  for (let frame = 0; !isOver; frame += BLOCK) {
    isOver = renderer.render(block, frame).some(({ type }) => type === 'finished');
    for (let index = 0; index < BLOCK; index++) {
      if (block[index] === 0) continue;
      if (frame + index - last > SILENCE_FRAMES) yield frame + index - lead;
      last = frame + index;
    }
  }
}

/** The largest distance of a click from its place, in samples; infinite when one is missing or too many. */
function largestError(meter: Meter, stretches: readonly Stretch[]): number {
  const places = exactPlaces(meter, stretches);
  let largest = 0n;
  for (const sample of renderedClicks(segments(meter, stretches))) {
    const { value, done } = places.next();
    if (done) return Infinity;
    const error = (BigInt(sample) << BITS) - value;
    if (error > largest || -error > largest) largest = error < 0n ? -error : error;
  }
  return places.next().done ? Number(largest >> (BITS - 20n)) / 2 ** 20 : Infinity;
}

/** Thirty minutes of rendered sound for every meter: steady, up a climb of 48 tempos, and along one ramp. */
export function* measure(): Iterable<Figure> {
  for (const { name, stretches } of COURSES) {
    const errors = METERS.map((meter) => {
      const error = largestError(meter, stretches(meter));
      console.error(name, meter, error);
      return error;
    });
    yield {
      figure: `click-rendered-${name}`,
      value: Math.max(...errors),
      unit: 'samples from the exact place, largest of all meters, 30 min',
      better: 'lower',
      target: 1,
    };
  }
}
