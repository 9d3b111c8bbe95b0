import { describe, expect, it } from 'vitest';
import { CLICK_PEAK } from '$lib/core/rhythm/click-sound';
import { countSounds } from '$lib/core/rhythm/count-sound';

const BANDS_HZ = [200, 350, 500, 700, 950, 1250, 1650, 2150, 2800, 3700, 4800, 6300];
const SLICES = 12;

/** Level of one frequency in a slice (Goertzel's recurrence). */
function level(slice: Float32Array, hz: number, rate: number): number {
  const turn = 2 * Math.cos((2 * Math.PI * hz) / rate);
  let [s1, s2] = [0, 0];
  for (const sample of slice) [s1, s2] = [sample + turn * s1 - s2, s1];
  return Math.sqrt(Math.max(0, s1 * s1 + s2 * s2 - turn * s1 * s2)) / slice.length;
}

/** A word as levels in decibels, by time and band, above a floor and about their mean. */
function picture(word: Float32Array, rate: number): number[] {
  const size = Math.floor((0.3 * rate) / SLICES);
  const padded = new Float32Array(size * SLICES);
  padded.set(word.subarray(0, padded.length));
  return Array.from({ length: SLICES }, (_, slice) =>
    BANDS_HZ.map((hz) => {
      const part = padded.subarray(slice * size, (slice + 1) * size);
      const around = [0.93, 1, 1.07].map((ratio) => level(part, hz * ratio, rate));
      return Math.max(-60, 20 * Math.log10(Math.hypot(...around) + 1e-9));
    }),
  ).flat();
}

const distance = (a: readonly number[], b: readonly number[]) =>
  Math.sqrt(a.reduce((sum, value, index) => sum + (value - b[index]!) ** 2, 0) / a.length);

describe.each([44_100, 48_000])('the spoken count at %i samples a second', (rate) => {
  const words = countSounds(rate);

  it('has a word for each beat up to eight, on its first sample, short, and within the peak', () => {
    expect(words).toHaveLength(8);
    for (const word of words) {
      expect(Math.abs(word[0]!)).toBeGreaterThan(1e-5);
      expect(Math.abs(word.at(-1)!)).toBeLessThan(1e-3);
      expect(word.length / rate).toBeGreaterThan(0.15);
      expect(word.length / rate).toBeLessThan(0.33);
      expect(word.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)).toBeCloseTo(CLICK_PEAK, 6);
    }
  });

  it('tells any two words apart by far more than one word from itself at another rate', () => {
    const pictures = words.map((word) => picture(word, rate));
    const others = countSounds(rate === 44_100 ? 48_000 : 44_100).map((word) =>
      picture(word, rate === 44_100 ? 48_000 : 44_100),
    );
    pictures.forEach((one, index) => {
      const itself = distance(one, others[index]!);
      pictures.forEach((two, other) => {
        if (other !== index)
          expect(distance(one, two), `${index + 1} and ${other + 1}`).toBeGreaterThan(2 * itself);
      });
    });
  });

  it('is voiced: most of its energy lies where speech has it, below 4 kHz', () => {
    for (const word of words) {
      const levels = picture(word, rate);
      const energy = (keep: (hz: number) => boolean) =>
        levels.reduce(
          (sum, db, at) => sum + (keep(BANDS_HZ[at % BANDS_HZ.length]!) ? 10 ** (db / 10) : 0),
          0,
        );
      expect(energy((hz) => hz < 4000)).toBeGreaterThan(0.8 * energy(() => true));
    }
  });
});
