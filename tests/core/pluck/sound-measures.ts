import { Banjo } from '$lib/core/pluck/banjo';
import type { PluckCue } from '$lib/core/rhythm/pluck-cue';

export type TimedTouch = Omit<PluckCue, 'at'> & { atSec: number };

/** Samples of some touches, in order of time, as the audio thread would ask for them. */
export function soundOf(touches: readonly TimedTouch[], seconds: number, rate = 48_000, block = 128) {
  const banjo = new Banjo(rate);
  const output = new Float32Array(Math.round(seconds * rate));
  let from = 0;
  const renderTo = (end: number) => {
    while (from < end) {
      const to = Math.min(end, from + block);
      banjo.render(output, from, to);
      from = to;
    }
  };
  for (const { atSec, ...touch } of touches) {
    renderTo(Math.round(atSec * rate));
    banjo.touch(touch);
  }
  renderTo(output.length);
  return output;
}

export function peak(samples: Float32Array): number {
  return samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
}

/** Level of a stretch, in dB below a square wave at full scale. */
export function levelDb(samples: Float32Array): number {
  return 10 * Math.log10(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length);
}

export function stretch(samples: Float32Array, fromSec: number, toSec: number, rate = 48_000): Float32Array {
  return samples.subarray(Math.round(fromSec * rate), Math.round(toSec * rate));
}

/** One component of the discrete Fourier transform of a stretch under a Hann window, as `[re, im]`. */
function component(samples: Float32Array, hz: number, rate: number): [number, number] {
  let [re, im] = [0, 0];
  samples.forEach((sample, index) => {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / samples.length);
    const turn = (2 * Math.PI * hz * index) / rate;
    re += window * sample * Math.cos(turn);
    im -= window * sample * Math.sin(turn);
  });
  return [re, im];
}

/** Amplitude of a sine at `hz`, as if it were steady over the stretch. */
export function amplitudeAt(samples: Float32Array, hz: number, rate = 48_000): number {
  return (Math.hypot(...component(samples, hz, rate)) * 4) / samples.length;
}

/**
 * The frequency of a partial near `nearHz`: how far its phase turns from the first two thirds of a stretch to the last
 * two thirds (the phase vocoder's estimate; this implementation is ours). Good to far under a cent for partials more
 * than 10 Hz apart in a stretch of 0.3 s; `nearHz` may be off by 1.5 / its length in seconds.
 */
export function frequencyNear(samples: Float32Array, nearHz: number, rate = 48_000): number {
  const hop = Math.floor(samples.length / 3);
  const phase = (from: number) => {
    const [re, im] = component(samples.subarray(from, from + 2 * hop), nearHz, rate);
    return Math.atan2(im, re);
  };
  const turn = phase(hop) - phase(0) - (2 * Math.PI * nearHz * hop) / rate;
  return nearHz + ((turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI))) * rate) / (2 * Math.PI * hop);
}

export function cents(hz: number, referenceHz: number): number {
  return 1200 * Math.log2(hz / referenceHz);
}

/** The mean frequency of the harmonics of `hz` up to 16 kHz, weighted by power. */
export function centroidHz(samples: Float32Array, hz: number, rate = 48_000): number {
  let [weighted, total] = [0, 0];
  for (let partial = hz; partial < 16_000; partial += hz) {
    const power = amplitudeAt(samples, partial, rate) ** 2;
    weighted += power * partial;
    total += power;
  }
  return weighted / total;
}
