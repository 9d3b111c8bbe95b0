import { addExact, exact, EXACT_ZERO, multiplyExact, type Exact } from './exact';
import { TEMPO_MAX, TEMPO_MIN } from './meter';
import { compare, divide, rational, subtract, ZERO, type Rational } from './rational';

/** One tempo from a beat on, until the next stretch begins. Further kinds of stretch join the union by their `kind`. */
export interface SteadyStretch {
  kind: 'steady';
  fromBeat: Rational;
  /** Beats of the meter per minute. */
  tempo: number;
}
export type TempoStretch = SteadyStretch;

/** How the tempo of a run goes: the first stretch begins at beat 0, the last one goes on for ever. */
export type TempoMap = readonly [TempoStretch, ...TempoStretch[]];

/**
 * The tempo as an exact number of beats per minute: the nearest tenth, as tempos are shown and kept to a tenth.
 * Throws a RangeError outside TEMPO_MIN..TEMPO_MAX, and for NaN.
 */
export function exactTempo(tempo: number): Rational {
  if (!(tempo >= TEMPO_MIN && tempo <= TEMPO_MAX)) {
    throw new RangeError(`A tempo lies between ${TEMPO_MIN} and ${TEMPO_MAX} beats per minute: saw ${tempo}`);
  }
  return rational(Math.round(tempo * 10), 10);
}

export function steadyTempo(tempo: number): TempoMap {
  return [{ kind: 'steady', fromBeat: ZERO, tempo }];
}

/** A map of constant tempos. Throws a RangeError unless it begins at beat 0, goes forward and has playable tempos. */
export function tempoMap(steps: readonly { fromBeat: Rational; tempo: number }[]): TempoMap {
  const [first, ...rest] = steps.map((step): TempoStretch => ({ kind: 'steady', ...step }));
  if (first === undefined || compare(first.fromBeat, ZERO) !== 0) {
    throw new RangeError('A tempo map begins at beat 0');
  }
  const map: TempoMap = [first, ...rest];
  map.forEach((stretch, index) => {
    exactTempo(stretch.tempo);
    const next = map[index + 1];
    if (next && compare(next.fromBeat, stretch.fromBeat) <= 0) {
      throw new RangeError(
        `Each stretch of a tempo map begins after the one before it: saw beat ${next.fromBeat.join('/')} after ${stretch.fromBeat.join('/')}`,
      );
    }
  });
  return map;
}

/** The exact time of a beat, in seconds from beat 0. */
export function secondsAt(map: TempoMap, beat: Rational): Exact {
  let seconds = EXACT_ZERO;
  for (const [index, { fromBeat, tempo }] of map.entries()) {
    if (compare(beat, fromBeat) <= 0) break;
    const next = map[index + 1]?.fromBeat;
    const end = next && compare(next, beat) < 0 ? next : beat;
    const secondsPerBeat = divide([60, 1], exactTempo(tempo));
    seconds = addExact(seconds, multiplyExact(exact(subtract(end, fromBeat)), exact(secondsPerBeat)));
  }
  return seconds;
}

/**
 * The tempos of a climb by equal ratios, in tenths, both ends included: each is `percent` above (or, going down, the
 * same ratio below) the one before, and the last step is cut at `to`, never past it. Throws a RangeError for tempos
 * out of range and unless `percent` is between 1 and 50.
 */
export function tempoSteps(from: number, to: number, percent: number): number[] {
  if (!(percent >= 1 && percent <= 50)) {
    throw new RangeError(`A step of a climb is between 1 and 50 percent: saw ${percent}`);
  }
  const [start, target] = [exactTempo(from), exactTempo(to)].map(([tenths, by]) => tenths / by) as [
    number,
    number,
  ];
  const ratio = target > start ? 1 + percent / 100 : 1 / (1 + percent / 100);
  const count = Math.ceil(Math.log(target / start) / Math.log(ratio) - 1e-9);
  const tempos = Array.from(
    { length: Math.max(0, count) },
    (_, step) => Math.round(start * ratio ** step * 10) / 10,
  );
  return [...tempos, target];
}
