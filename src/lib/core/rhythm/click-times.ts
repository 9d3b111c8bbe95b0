import { addExact, exact, EXACT_ZERO, multiplyExact, roundExact, type Exact } from './exact';
import { meterShape, type Meter } from './meter';
import { strokesOfMeasure, type Accent, type Pattern } from './patterns';
import { add, rational, subtract, ZERO, type Rational } from './rational';
import { secondsAt, type TempoMap } from './tempo-map';

/** Measures played one after the other with one pattern. */
export interface Run {
  meter: Meter;
  pattern: Pattern;
  /** The beats in each measure, in multiples of one half; measures of a crooked tune differ. */
  measures: readonly number[];
  /** True when the first measure holds the last beats of a measure only, as a pickup or the near side of a seam does. */
  pickup?: boolean;
}

export interface RunStroke {
  /** In beats from the start of the run. */
  beat: Rational;
  accent: Accent;
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
  let start = ZERO;
  for (const [index, measure] of run.measures.entries()) {
    const beats = exactBeats(measure);
    const isPickup = index === 0 && run.pickup === true;
    for (const { at, accent } of strokesOfMeasure(run.pattern, run.meter, beats, isPickup)) {
      yield { beat: add(start, at), accent };
    }
    start = add(start, beats);
  }
}

/** The exact time of every stroke of a run. */
export function clickTimes(run: Run, tempo: TempoMap): ClickTime[] {
  return Array.from(runStrokes(run), ({ beat, accent }) => ({ seconds: secondsAt(tempo, beat), accent }));
}

/** The exact place of a beat in samples, for a run that begins at `start` (in samples, a fraction when it follows another). */
export function exactSample(tempo: TempoMap, beat: Rational, sampleRate: number, start = EXACT_ZERO): Exact {
  return addExact(start, multiplyExact(secondsAt(tempo, beat), exact(sampleRate)));
}

/** The sample of every stroke of a run: the exact place, rounded once. `sampleRate` is a whole number of samples a second. */
export function clickSamples(
  run: Run,
  tempo: TempoMap,
  sampleRate: number,
  start = EXACT_ZERO,
): ClickSample[] {
  return Array.from(runStrokes(run), ({ beat, accent }) => ({
    sample: roundExact(exactSample(tempo, beat, sampleRate, start)),
    accent,
  }));
}

/**
 * The measures of a count-in of one measure, in beats. Before a pickup the count goes on until the pickup
 * falls in: in 2/4 with a pickup of one beat it is "one, two, one".
 */
export function countInMeasures(meter: Meter, pickupBeats = 0): number[] {
  const { beats } = meterShape(meter);
  if (pickupBeats === 0) return [beats];
  const [halves, by] = subtract([beats, 1], exactBeats(pickupBeats));
  return halves > 0 ? [beats, halves / by] : [beats];
}
