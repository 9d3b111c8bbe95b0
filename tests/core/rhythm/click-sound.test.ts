import { describe, expect, it } from 'vitest';
import { CLICK_PEAK, CLICK_SOUNDS, clickSounds } from '$lib/core/rhythm/click-sound';

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

const rates = [8000, 44_100, 48_000, 192_000];
const each = rates.flatMap((rate) => CLICK_SOUNDS.map((sound) => ({ rate, sound })));

describe.each(each)('the $sound at $rate samples a second', ({ rate, sound }) => {
  const sounds = clickSounds(rate)[sound];

  it('starts with its first sample, ends in zero, and has died before the next of the densest strokes', () => {
    for (const samples of Object.values(sounds)) {
      expect(Math.abs(samples[0]!)).toBeGreaterThan(1e-4);
      expect(Math.abs(samples.at(-1)!)).toBe(0);
      // 300 beats a minute in quarters of a beat are 50 ms apart
      expect(peak(samples.subarray(0.05 * rate))).toBeLessThan(0.3 * peak(samples));
    }
  });

  it('has no direct current and stays below the peak', () => {
    for (const samples of Object.values(sounds)) {
      expect(Math.abs(samples.reduce((sum, sample) => sum + sample, 0))).toBeLessThan(1e-3);
      expect(peak(samples)).toBeLessThanOrEqual(Math.fround(CLICK_PEAK));
    }
    expect(peak(sounds.first)).toBeCloseTo(CLICK_PEAK, 6);
  });

  it('is louder for stronger strokes', () => {
    expect(peak(sounds.part)).toBeCloseTo(peak(sounds.first), 6);
    expect(peak(sounds.first)).toBeGreaterThan(peak(sounds.beat));
    expect(peak(sounds.beat)).toBeGreaterThan(peak(sounds.light));
  });
});

describe('where the energy lies', () => {
  // the fundamentals of the open strings, C3 to G4, and of the first string at fret 12, are 130.8 to 587.3 Hz (SCIENCE.md 4)
  it.each(CLICK_SOUNDS)(
    '%s: under a tenth below 1.5 kHz, most of it above 2 kHz, nothing at full scale',
    (sound) => {
      for (const samples of Object.values(clickSounds(44_100)[sound])) {
        expect(energyShare(samples, 44_100, 0, 22_050)).toBeCloseTo(1, 1);
        expect(energyShare(samples, 44_100, 0, 1500)).toBeLessThan(0.1);
        expect(energyShare(samples, 44_100, 1900, 22_050)).toBeGreaterThan(0.7);
      }
    },
  );

  it('tells the part from the measure by its pitch', () => {
    for (const sound of CLICK_SOUNDS) {
      const { part, first } = clickSounds(44_100)[sound];
      const low = (samples: Float32Array) => energyShare(samples, 44_100, 0, 3000);
      expect(low(first)).toBeGreaterThan(1.5 * low(part));
    }
  });
});
