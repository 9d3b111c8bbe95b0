import { describe, expect, it } from 'vitest';
import { BRIGHT_HZ, kernelLength, lossTaps, writeKernel } from '$lib/core/pluck/loop-kernel';

const RATES = [44_100, 48_000, 96_000];
const LOSS = { fundamentalSec: 1.2, brightSec: 0.5 };
/** G1 to C8, and fractions of a sample between. */
const PITCHES_HZ = [49.0, 98.3, 130.8128, 196.1, 293.7, 440, 880.4, 2093, 4186];

/** What one turn of the loop does to a sine: its gain, and its delay in frames, near `delay`. */
function response(hz: number, rate: number, atHz: number): { gain: number; delay: number } {
  const taps = new Float64Array(kernelLength(rate));
  const first = writeKernel(taps, rate / hz, lossTaps(hz, LOSS, rate));
  const turn = (2 * Math.PI * atHz) / rate;
  let [re, im] = [0, 0];
  taps.forEach((tap, k) => {
    re += tap * Math.cos(turn * (first + k - rate / hz));
    im -= tap * Math.sin(turn * (first + k - rate / hz));
  });
  return { gain: Math.hypot(re, im), delay: rate / hz - Math.atan2(im, re) / turn };
}

describe.each(RATES)('the loop at %i samples a second', (rate) => {
  it.each(PITCHES_HZ)('of %d Hz is as long as its period, for its first ten partials', (hz) => {
    for (let partial = 1; partial <= 10 && partial * hz < rate / 8; partial++) {
      const { delay } = response(hz, rate, partial * hz);
      // a hundredth of a cent
      expect(Math.abs(1200 * Math.log2((delay * hz) / rate))).toBeLessThan(partial === 1 ? 0.01 : 0.5);
    }
  });

  it.each(PITCHES_HZ)('of %d Hz never gives more than it takes, so that no string can howl', (hz) => {
    for (let atHz = 1; atHz < rate / 2; atHz += rate / 700)
      expect(response(hz, rate, atHz).gain).toBeLessThanOrEqual(1);
  });

  /** 60 dB in T seconds is a gain of 10^(-3 / (f T)) a turn (Jaffe & Smith 1983). */
  it('loses 60 dB in the time asked for, at the fundamental and at the bright end', () => {
    const seconds = (hz: number, atHz: number) => -3 / (hz * Math.log10(response(hz, rate, atHz).gain));
    for (const hz of [130.8128, 293.7, 440]) {
      expect(seconds(hz, hz)).toBeCloseTo(LOSS.fundamentalSec, 2);
      // what the interpolation takes of the bright end comes on top
      expect(seconds(hz, BRIGHT_HZ)).toBeLessThan(LOSS.brightSec * 1.3);
      expect(seconds(hz, BRIGHT_HZ)).toBeGreaterThan(LOSS.brightSec * 0.7);
    }
  });
});
