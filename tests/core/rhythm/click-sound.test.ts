import { describe, expect, it } from 'vitest';
import { CLICK_PEAK, clickSounds } from '$lib/core/rhythm/click-sound';

const peak = (sound: Float32Array) => sound.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
const energy = (sound: Float32Array) => sound.reduce((sum, sample) => sum + sample * sample, 0);

/** The share of the energy between two frequencies, by a plain Fourier sum. */
function energyShare(sound: Float32Array, rate: number, fromHz: number, toHz: number): number {
  let total = 0;
  for (let bin = 0; bin < sound.length / 2; bin++) {
    const hz = (bin * rate) / sound.length;
    if (hz < fromHz || hz > toHz) continue;
    let real = 0;
    let imaginary = 0;
    sound.forEach((sample, index) => {
      const angle = (2 * Math.PI * bin * index) / sound.length;
      real += sample * Math.cos(angle);
      imaginary += sample * Math.sin(angle);
    });
    total += real * real + imaginary * imaginary;
  }
  return (2 * total) / sound.length / energy(sound);
}

describe.each([8000, 44_100, 48_000, 192_000])('the click at %i samples a second', (rate) => {
  const sounds = clickSounds(rate);

  it('starts with its first sample, ends in zero, and is over before the next can come', () => {
    for (const sound of Object.values(sounds)) {
      expect(Math.abs(sound[0]!)).toBeGreaterThan(1e-4);
      expect(Math.abs(sound.at(-1)!)).toBe(0);
      expect(sound.length / rate).toBeLessThan(0.05);
    }
  });

  it('has no direct current and stays below the peak', () => {
    for (const sound of Object.values(sounds)) {
      expect(Math.abs(sound.reduce((sum, sample) => sum + sample, 0))).toBeLessThan(1e-4);
      expect(peak(sound)).toBeLessThanOrEqual(Math.fround(CLICK_PEAK));
    }
    expect(peak(sounds.first)).toBeCloseTo(CLICK_PEAK, 6);
  });

  it('is louder for stronger strokes', () => {
    expect(peak(sounds.first)).toBeGreaterThan(peak(sounds.beat));
    expect(peak(sounds.beat)).toBeGreaterThan(peak(sounds.light));
  });
});

it('has its energy above the strings: under a tenth of it lies below 1 kHz', () => {
  for (const sound of Object.values(clickSounds(44_100))) {
    expect(energyShare(sound, 44_100, 0, 22_050)).toBeCloseTo(1, 1);
    expect(energyShare(sound, 44_100, 0, 1000)).toBeLessThan(0.1);
  }
});
