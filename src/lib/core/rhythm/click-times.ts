import { addExact, exact, EXACT_ZERO, multiplyExact, roundExact, type Exact } from './exact';
import { meterShape, type Meter } from './meter';
import { strokesOfMeasure, type Accent, type Pattern } from './patterns';
import { add, rational, ZERO, type Rational } from './rational';
import { secondsAround, secondsAt, type TempoMap } from './tempo-map';

/** Measures that sound, then measures that do not, over and over: the learner keeps going and hears whether they kept time. */
export interface SilentMeasures {
  /** Whole measures, 1 or more each. */
  on: number;
  off: number;
  /** How many measures of the cycle lie before this run; 0 when left out. */
  before?: number;
}

/** Measures played one after the other with one pattern. */
export interface Run {
  meter: Meter;
  pattern: Pattern;
  /** The beats in each measure, in multiples of one half; measures of a crooked tune differ. */
  measures: readonly number[];
  /** True when the first measure holds the last beats of a measure only, as a pickup or the near side of a seam does. */
  pickup?: boolean;
  /** Of the pattern, from 1 (straight) to 2; 1 when left out. */
  swing?: number;
  /** Indexes of the measures that begin a part: their first stroke is the strongest. */
  parts?: readonly number[];
  silentMeasures?: SilentMeasures;
}

export interface RunStroke {
  /** In beats from the start of the run. */
  beat: Rational;
  accent: Accent;
  /** Which beat of its measure it is, from 1; `null` between the beats. */
  count: number | null;
}

export interface ClickTime {
  /** From the start of the run. */
  seconds: Exact;
  accent: Accent;
}

export interface ClickSample {
  sample: number;
  accent: Accent;
}

/** A number of beats as an exact fraction. Throws a RangeError unless it is a positive multiple of one half, at most 64. */
export function exactBeats(beats: number): Rational {
  if (!Number.isInteger(beats * 2) || beats <= 0 || beats > 64) {
    throw new RangeError(`A measure has between a half and 64 beats, in halves: saw ${beats}`);
  }
  return rational(beats * 2, 2);
}

/** The length of a run in beats. */
export function runBeats(run: Run): Rational {
  return run.measures.reduce<Rational>((sum, beats) => add(sum, exactBeats(beats)), ZERO);
}

/** The strokes of a run, in order, one at a time: the audio thread asks only for what is due next. */
export function* runStrokes(run: Run): Generator<RunStroke, void, undefined> {
  const { pattern, meter, swing = 1 } = run;
  let start = ZERO;
  for (const [index, measure] of run.measures.entries()) {
    const beats = exactBeats(measure);
    if (measureSounds(run.silentMeasures, index)) {
      const pickup = index === 0 && run.pickup === true;
      const part = run.parts?.includes(index) ?? false;
      for (const { at, accent, count } of strokesOfMeasure(pattern, meter, beats, { pickup, part, swing })) {
        yield { beat: add(start, at), accent, count };
      }
    }
    start = add(start, beats);
  }
}

function measureSounds(silent: SilentMeasures | undefined, index: number): boolean {
  if (!silent) return true;
  return ((silent.before ?? 0) + index) % (silent.on + silent.off) < silent.on;
}

/** The exact time of every stroke of a run. */
export function clickTimes(run: Run, tempo: TempoMap): ClickTime[] {
  return Array.from(runStrokes(run), ({ beat, accent }) => ({ seconds: secondsAt(tempo, beat), accent }));
}

/**
 * The place of a beat in samples, for a run that begins at `start` (in samples, a fraction when it follows another):
 * exact but inside a ramp, and there within 2^-128 s.
 */
export function exactSample(tempo: TempoMap, beat: Rational, sampleRate: number, start = EXACT_ZERO): Exact {
  return addExact(start, multiplyExact(secondsAt(tempo, beat), exact(sampleRate)));
}

/**
 * The sample nearest to the exact place of a beat. Inside a ramp that place is irrational, so it is no half, and closer and
 * closer bounds end on one side of every half: the result is what rounding the exact place once would give.
 */
export function nearestSample(
  tempo: TempoMap,
  beat: Rational,
  sampleRate: number,
  start = EXACT_ZERO,
): number {
  const rate = exact(sampleRate);
  for (let bits = 64; ; bits *= 2) {
    const [low, high] = secondsAround(tempo, beat, bits).map((seconds) =>
      roundExact(addExact(start, multiplyExact(seconds, rate))),
    ) as [number, number];
    if (low === high) return low;
  }
}

/** The sample of every stroke of a run: the exact place, rounded once. `sampleRate` is a whole number of samples a second. */
export function clickSamples(
  run: Run,
  tempo: TempoMap,
  sampleRate: number,
  start = EXACT_ZERO,
): ClickSample[] {
  return Array.from(runStrokes(run), ({ beat, accent }) => ({
    sample: nearestSample(tempo, beat, sampleRate, start),
    accent,
  }));
}

/**
 * The measures of a count-in of `bars` measures, in beats. When the music begins inside a measure, after `leadIn` of its
 * beats (a seam, a pickup), the count goes on until it falls in: in 2/4 with a lead of one beat it is "one, two, one".
 */
export function countInMeasures(meter: Meter, bars: number, leadIn = 0): number[] {
  const whole = Array.from({ length: bars }, () => meterShape(meter).beats);
  return leadIn > 0 ? [...whole, leadIn] : whole;
}
