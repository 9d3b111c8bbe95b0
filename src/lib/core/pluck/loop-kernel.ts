/**
 * The part of a plucked string's loop that reads its delay line: one symmetric pair of loss filters and a fractional
 * delay, folded into a single run of taps. After the extended Karplus-Strong loop (Jaffe & Smith 1983, Computer Music
 * Journal 7:2), with two changes: the loss is symmetric, so that it delays every partial alike and leaves the partials
 * harmonic, and the fraction of a sample is a Lagrange interpolation (Laakso, Välimäki, Karjalainen & Laine 1996, IEEE
 * Signal Processing Magazine 13:1), which, unlike an allpass, has no memory that a glide of the pitch could upset.
 */

/** Odd, so that the gain stays at or below 1 while the fraction lies in the middle interval (Laakso et al. 1996). */
const LAGRANGE_ORDER = 5;

/** How a string loses its energy. */
export interface Loss {
  /** Time in which the fundamental falls by 60 dB. */
  fundamentalSec: number;
  /** The same at `BRIGHT_HZ`; shorter, or the string rings like glass. */
  brightSec: number;
}

export const BRIGHT_HZ = 4000;

/** What the loss takes in one turn of the loop: `gain` times two equal filters `side, 1 - 2 side, side`. */
export interface LossTaps {
  gain: number;
  side: number;
}

/** Frames between the taps of the loss filter: it must act alike on what is heard at 48 kHz and at 96 kHz. */
export function lossSpacing(sampleRate: number): number {
  return Math.max(1, Math.round(sampleRate / 46_000));
}

export function kernelLength(sampleRate: number): number {
  return LAGRANGE_ORDER + 1 + 4 * lossSpacing(sampleRate);
}

/**
 * The loss filter of a string at a pitch. Each turn of the loop takes `10^(-3 / (hz * seconds))`, which makes 60 dB in
 * `seconds` (Jaffe & Smith 1983). Where `brightSec` asks for more than two filters can take, they take what they can.
 */
export function lossTaps(hz: number, { fundamentalSec, brightSec }: Loss, sampleRate: number): LossTaps {
  const spacing = lossSpacing(sampleRate);
  const turnGain = (seconds: number) => 10 ** (-3 / (hz * seconds));
  const bend = (atHz: number) => 1 - Math.cos((2 * Math.PI * atHz * spacing) / sampleRate);
  const ratio = Math.sqrt(turnGain(brightSec) / turnGain(fundamentalSec));
  const room = bend(BRIGHT_HZ) - ratio * bend(hz);
  const side = room > 0 ? Math.min(0.25, Math.max(0, (1 - ratio) / (2 * room))) : 0;
  return { gain: turnGain(fundamentalSec) / (1 - 2 * side * bend(hz)) ** 2, side };
}

/**
 * Writes the taps for a loop of `delay` frames (not rounded) into `taps`, and returns the delay of the first one; the
 * others follow a frame apart. `delay` must be at least half the kernel's length plus 1. Allocates nothing.
 */
export function writeKernel(taps: Float64Array, delay: number, { gain, side }: LossTaps): number {
  const spacing = (taps.length - LAGRANGE_ORDER - 1) / 4;
  const inner = delay - 2 * spacing;
  const first = Math.floor(inner) - (LAGRANGE_ORDER - 1) / 2;
  const place = inner - first;
  const middle = 1 - 2 * side;
  const outer = gain * side * side;
  const next = gain * 2 * side * middle;
  const centre = gain * (middle * middle + 2 * side * side);
  taps.fill(0);
  for (let k = 0; k <= LAGRANGE_ORDER; k++) {
    const weight = lagrange(k, place);
    taps[k]! += weight * outer;
    taps[k + spacing]! += weight * next;
    taps[k + 2 * spacing]! += weight * centre;
    taps[k + 3 * spacing]! += weight * next;
    taps[k + 4 * spacing]! += weight * outer;
  }
  return first;
}

function lagrange(k: number, place: number): number {
  let weight = 1;
  for (let j = 0; j <= LAGRANGE_ORDER; j++) if (j !== k) weight *= (place - j) / (k - j);
  return weight;
}
