import { describe, expect, it } from 'vitest';
import { BanjoVoice } from '$lib/core/pluck/banjo-voice';
import { CLICK_PEAK, CLICK_SOUNDS, clickSounds } from '$lib/core/rhythm/click-sound';

const peak = (sound: Float32Array) => sound.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
/** The energy between two frequencies, bin by bin of a Fourier sum (Goertzel's recurrence). */
function energyBetween(sound: Float32Array, rate: number, fromHz: number, toHz: number): number {
  let total = 0;
  const last = Math.min(Math.floor((toHz * sound.length) / rate), Math.floor((sound.length - 1) / 2));
  for (let bin = Math.max(1, Math.ceil((fromHz * sound.length) / rate)); bin <= last; bin++) {
    const turn = 2 * Math.cos((2 * Math.PI * bin) / sound.length);
    let [s1, s2] = [0, 0];
    for (let index = 0; index < sound.length; index++) {
      const s0 = sound[index]! + turn * s1 - s2;
      s2 = s1;
      s1 = s0;
    }
    total += s1 * s1 + s2 * s2 - turn * s1 * s2;
  }
  return (2 * total) / sound.length;
}

function energyShare(sound: Float32Array, rate: number, fromHz: number, toHz: number): number {
  return energyBetween(sound, rate, fromHz, toHz) / sound.reduce((sum, sample) => sum + sample * sample, 0);
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

describe('beside the string at the same volume', () => {
  const rate = 44_100;
  const window = Math.round(0.03 * rate);
  const dB = (ratio: number) => 10 * Math.log10(ratio);

  /** The loudest 30 ms of eighths over four strings, in a band. */
  const string = (() => {
    const voice = new BanjoVoice(rate);
    const played = new Float32Array(Math.ceil((1.5 * rate) / 128) * 128);
    const line = ([3, 1, 2, 5, 3, 1] as const).map((number, index) => ({
      frame: Math.round((index * rate) / 4),
      cue: { at: [0, 1], string: number, pitch: [55, 62, 59, 67][index % 4]! } as const,
    }));
    for (let frame = 0; frame < played.length; frame += 128) {
      const due = line.filter((one) => one.frame >= frame && one.frame < frame + 128);
      for (const one of due) voice.strike(one.cue, one.frame);
      voice.render(played.subarray(frame, frame + 128), frame);
    }
    return (fromHz: number, toHz: number) => {
      let most = 0;
      for (let start = 0; start + window <= played.length; start += window) {
        most = Math.max(most, energyBetween(played.subarray(start, start + window), rate, fromHz, toHz));
      }
      return most;
    };
  })();
  const [low, high] = [string(100, 1900), string(2000, 8000)];

  it.each(CLICK_SOUNDS)('%s stands out above 2 kHz and leaves the strings their own range', (sound) => {
    const sounds = clickSounds(rate)[sound];
    for (const [accent, above, below] of [
      ['first', 6, -15],
      ['beat', 4, -8],
    ] as const) {
      const samples = new Float32Array(window);
      samples.set(sounds[accent].subarray(0, window));
      expect(dB(energyBetween(samples, rate, 2000, 8000) / high)).toBeGreaterThan(above);
      expect(dB(energyBetween(samples, rate, 100, 1900) / low)).toBeLessThan(below);
    }
  });
});
