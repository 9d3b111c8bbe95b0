import {
  addExact,
  divideExact,
  exact,
  EXACT_ZERO,
  exactToNumber,
  multiplyExact,
  squareRootAround,
  subtractExact,
  type Exact,
} from './exact';
import { TEMPO_MAX, TEMPO_MIN } from './meter';
import { compare, divide, rational, subtract, toNumber, ZERO, type Rational } from './rational';

/** One tempo from a beat on, until the next stretch begins. */
export interface SteadyStretch {
  kind: 'steady';
  fromBeat: Rational;
  /** Beats of the meter per minute. */
  tempo: number;
}

/**
 * From `tempo` at one beat to `toTempo` at another, changing evenly in time, so that equal times change it by equal
 * amounts; then steady at `toTempo` until the next stretch begins. A next stretch that begins before `toBeat` cuts it short.
 */
export interface RampStretch {
  kind: 'ramp';
  fromBeat: Rational;
  toBeat: Rational;
  tempo: number;
  toTempo: number;
}

export type TempoStretch = SteadyStretch | RampStretch;

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

/** From `tempo` at beat 0 to `toTempo` at `beats`, evenly in time. */
export function rampedTempo(tempo: number, toTempo: number, beats: Rational): TempoMap {
  return [{ kind: 'ramp', fromBeat: ZERO, toBeat: beats, tempo, toTempo }];
}

/**
 * A checked map. Throws a RangeError unless it begins at beat 0, goes forward, its ramps have a length, and all its
 * tempos can be played.
 */
export function tempoMap(stretches: readonly TempoStretch[]): TempoMap {
  const [first, ...rest] = stretches;
  if (first === undefined || compare(first.fromBeat, ZERO) !== 0) {
    throw new RangeError('A tempo map begins at beat 0');
  }
  const map: TempoMap = [first, ...rest];
  for (const [index, stretch] of map.entries()) {
    exactTempo(stretch.tempo);
    if (stretch.kind === 'ramp') checkRamp(stretch);
    const next = map[index + 1];
    if (next && compare(next.fromBeat, stretch.fromBeat) <= 0) {
      throw new RangeError(
        `Each stretch of a tempo map begins after the one before it: saw beat ${next.fromBeat.join('/')} after ${stretch.fromBeat.join('/')}`,
      );
    }
  }
  return map;
}

function checkRamp({ fromBeat, toBeat, toTempo }: RampStretch): void {
  exactTempo(toTempo);
  if (compare(toBeat, fromBeat) <= 0) {
    throw new RangeError(
      `A ramp ends after it begins: saw beat ${toBeat.join('/')} after ${fromBeat.join('/')}`,
    );
  }
}

/** The map up to a beat, and one tempo from there on. */
export function tempoFrom(map: TempoMap, beat: Rational, tempo: number): TempoMap {
  const [first, ...rest] = map.filter(({ fromBeat }) => compare(fromBeat, beat) < 0);
  const step: TempoStretch = { kind: 'steady', fromBeat: beat, tempo };
  return first ? [first, ...rest, step] : steadyTempo(tempo);
}

/**
 * Two times, in seconds from beat 0, between which a beat lies. They are the same, and exact, in steady stretches and
 * at the end of a ramp; inside a ramp the time holds a square root, and they are at most 2^-bits apart.
 */
export function secondsAround(map: TempoMap, beat: Rational, bits: number): readonly [Exact, Exact] {
  let [low, high] = [EXACT_ZERO, EXACT_ZERO];
  for (const [index, stretch] of map.entries()) {
    if (compare(beat, stretch.fromBeat) <= 0) break;
    const next = map[index + 1]?.fromBeat;
    const [least, most] = stretchSeconds(stretch, next && compare(next, beat) < 0 ? next : beat, bits);
    [low, high] = [addExact(low, least), addExact(high, most)];
  }
  return [low, high];
}

/** The time of a beat, in seconds from beat 0: exact but inside a ramp, and there within 2^-128 s. */
export function secondsAt(map: TempoMap, beat: Rational): Exact {
  return secondsAround(map, beat, 128)[0];
}

/** The seconds from the start of a stretch to a beat after it, as `secondsAround`. */
function stretchSeconds(stretch: TempoStretch, until: Rational, bits: number): readonly [Exact, Exact] {
  if (stretch.kind === 'steady') {
    const seconds = steadySeconds(subtract(until, stretch.fromBeat), stretch.tempo);
    return [seconds, seconds];
  }
  if (compare(until, stretch.toBeat) <= 0) return rampSeconds(stretch, until, bits);
  const [ramp] = rampSeconds(stretch, stretch.toBeat, bits);
  const seconds = addExact(ramp, steadySeconds(subtract(until, stretch.toBeat), stretch.toTempo));
  return [seconds, seconds];
}

function steadySeconds(beats: Rational, tempo: number): Exact {
  return multiplyExact(exact(beats), exact(divide([60, 1], exactTempo(tempo))));
}

/**
 * The tempo goes from v to w while B beats pass, evenly in time, so after b of them it is
 * `u = sqrt(v^2 + (w^2 - v^2) b / B)`, and the mean tempo up to there is `(v + u) / 2`.
 */
function rampSeconds(ramp: RampStretch, until: Rational, bits: number): readonly [Exact, Exact] {
  const [v, w] = [exact(exactTempo(ramp.tempo)), exact(exactTempo(ramp.toTempo))];
  const b = exact(subtract(until, ramp.fromBeat));
  const part = divideExact(b, exact(subtract(ramp.toBeat, ramp.fromBeat)));
  const vv = multiplyExact(v, v);
  const uu = addExact(vv, multiplyExact(subtractExact(multiplyExact(w, w), vv), part));
  // a tempo is at least 20 a minute and a stretch far shorter than 2^20 beats
  const [least, most] = squareRootAround(uu, bits + 32);
  const minutes = (u: Exact) => divideExact(multiplyExact(exact(120), b), addExact(v, u));
  return [minutes(most), minutes(least)];
}

/** The beat, not rounded, at a time in seconds from beat 0: for what is shown. */
export function beatAt(map: TempoMap, seconds: number): number {
  let start = 0;
  for (const [index, stretch] of map.entries()) {
    const next = map[index + 1]?.fromBeat;
    const end = next ? exactToNumber(secondsAt(map, next)) : Infinity;
    if (seconds < end) return toNumber(stretch.fromBeat) + stretchBeats(stretch, seconds - start);
    start = end;
  }
  return NaN;
}

function stretchBeats(stretch: TempoStretch, seconds: number): number {
  const perSecond = stretch.tempo / 60;
  if (stretch.kind === 'steady') return seconds * perSecond;
  const beats = toNumber(subtract(stretch.toBeat, stretch.fromBeat));
  const change = (stretch.toTempo - stretch.tempo) / 60;
  const length = (2 * beats) / (2 * perSecond + change);
  if (seconds >= length) return beats + ((seconds - length) * stretch.toTempo) / 60;
  return seconds * (perSecond + (change * seconds) / (2 * length));
}

/** The tempo at a beat, in beats per minute. */
export function tempoAt(map: TempoMap, beat: Rational): number {
  const stretch = map.findLast(({ fromBeat }) => compare(fromBeat, beat) <= 0) ?? map[0];
  if (stretch.kind === 'steady') return stretch.tempo;
  if (compare(beat, stretch.toBeat) >= 0) return stretch.toTempo;
  const part = toNumber(divide(subtract(beat, stretch.fromBeat), subtract(stretch.toBeat, stretch.fromBeat)));
  return Math.sqrt(stretch.tempo ** 2 + (stretch.toTempo ** 2 - stretch.tempo ** 2) * part);
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
  const [start, target] = [toNumber(exactTempo(from)), toNumber(exactTempo(to))];
  const ratio = target > start ? 1 + percent / 100 : 1 / (1 + percent / 100);
  const count = Math.ceil(Math.log(target / start) / Math.log(ratio) - 1e-9);
  const tempos = Array.from(
    { length: Math.max(0, count) },
    (_, step) => Math.round(start * ratio ** step * 10) / 10,
  );
  return [...tempos, target];
}
