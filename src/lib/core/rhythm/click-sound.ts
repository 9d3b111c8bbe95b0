import { noise, resonator } from './synthesis';
import type { Accent } from './patterns';

/** Loudest sample of a click; what is left to 1 keeps a device's own filters from clipping. */
export const CLICK_PEAK = 0.9;

/** What the click sounds like. */
export const CLICK_SOUNDS = ['wood', 'bell', 'rim'] as const;
export type ClickSound = (typeof CLICK_SOUNDS)[number];

const ATTACK_SEC = 0.0002;
const RELEASE_SEC = 0.006;

interface Mode {
  ratio: number;
  amplitude: number;
  decaySec: number;
}

interface Timbre {
  lengthSec: number;
  modes: readonly Mode[];
  /** A burst of noise around a frequency; amplitude 0 for none. */
  burst: { amplitude: number; centreHz: number; decaySec: number };
  /** Of the lowest mode. */
  pitchHz: Record<Accent, number>;
}

const NO_BURST = { amplitude: 0, centreHz: 5000, decaySec: 0.001 };

/**
 * All lie from 2 kHz up, above most of what a banjo's strings give, so that the click needs little level to be heard.
 *
 * Wood: a small bar struck on its edge. The modes of a bar with free ends lie at 1 : 2.756 : 5.404 (Euler-Bernoulli
 * beam, from memory); higher ones die sooner. Bell: the partials of a tuned bell from its prime up, 1 : 1.2 : 1.5 : 2 :
 * 2.667 (from memory), which ring on. Rim: a stick across a hoop, mostly noise, drier than either.
 */
const TIMBRES: Record<ClickSound, Timbre> = {
  wood: {
    lengthSec: 0.045,
    modes: [
      { ratio: 1, amplitude: 1, decaySec: 0.009 },
      { ratio: 2.756, amplitude: 0.55, decaySec: 0.004 },
      { ratio: 5.404, amplitude: 0.2, decaySec: 0.0015 },
    ],
    burst: NO_BURST,
    pitchHz: { part: 3300, first: 2640, beat: 1980, light: 1980 },
  },
  bell: {
    lengthSec: 0.13,
    modes: [
      { ratio: 1, amplitude: 0.8, decaySec: 0.035 },
      { ratio: 1.2, amplitude: 0.5, decaySec: 0.03 },
      { ratio: 1.5, amplitude: 0.35, decaySec: 0.025 },
      { ratio: 2, amplitude: 1, decaySec: 0.03 },
      { ratio: 2.667, amplitude: 0.5, decaySec: 0.012 },
    ],
    burst: NO_BURST,
    pitchHz: { part: 3520, first: 2794, beat: 2217, light: 2217 },
  },
  rim: {
    lengthSec: 0.03,
    modes: [
      { ratio: 1, amplitude: 0.6, decaySec: 0.004 },
      { ratio: 1.83, amplitude: 0.4, decaySec: 0.003 },
    ],
    burst: { amplitude: 1, centreHz: 5200, decaySec: 0.0035 },
    pitchHz: { part: 3400, first: 2900, beat: 2350, light: 2350 },
  },
};

const LEVELS: Record<Accent, number> = { part: 1, first: 1, beat: 0.75, light: 0.4 };

/**
 * One click as samples at a rate: the first sample is the stroke itself and not 0, the last one is 0, the sum of all
 * is 0 (no direct current), the peak is CLICK_PEAK times the accent's level.
 */
export function clickSound(sound: ClickSound, accent: Accent, sampleRate: number): Float32Array {
  const timbre = TIMBRES[sound];
  const length = Math.round(timbre.lengthSec * sampleRate);
  const window = Float64Array.from({ length }, (_, index) => envelope(index, length, sampleRate));
  const wave = struck(timbre, timbre.pitchHz[accent], length, sampleRate);
  const offset = dot(wave, window) / window.reduce((sum, gain) => sum + gain, 0);
  const balanced = wave.map((sample, index) => (sample - offset) * window[index]!);
  const peak = balanced.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return Float32Array.from(balanced, (sample) => (sample * LEVELS[accent] * CLICK_PEAK) / peak);
}

/** Every sound in every strength. */
export function clickSounds(sampleRate: number): Record<ClickSound, Record<Accent, Float32Array>> {
  const accents = (sound: ClickSound): Record<Accent, Float32Array> => ({
    part: clickSound(sound, 'part', sampleRate),
    first: clickSound(sound, 'first', sampleRate),
    beat: clickSound(sound, 'beat', sampleRate),
    light: clickSound(sound, 'light', sampleRate),
  });
  return { wood: accents('wood'), bell: accents('bell'), rim: accents('rim') };
}

function struck(timbre: Timbre, pitchHz: number, length: number, sampleRate: number): Float64Array {
  const wave = new Float64Array(length);
  for (const { ratio, amplitude, decaySec } of timbre.modes) {
    const hz = ratio * pitchHz;
    if (hz >= 0.45 * sampleRate) continue;
    addMode(wave, amplitude, hz / sampleRate, Math.exp(-1 / (decaySec * sampleRate)));
  }
  const { amplitude, centreHz, decaySec } = timbre.burst;
  if (amplitude === 0) return wave;
  const hiss = noise();
  const band = resonator(sampleRate, Math.min(centreHz, 0.4 * sampleRate), 3000);
  for (let index = 0; index < length; index++) {
    wave[index]! += amplitude * Math.exp(-index / sampleRate / decaySec) * band(hiss());
  }
  return wave;
}

/** Adds `amplitude * decay^n * sin(2 pi turns n)`, n from 1, by its recurrence: quick enough for the audio thread. */
function addMode(wave: Float64Array, amplitude: number, turns: number, decay: number): void {
  const turn = 2 * decay * Math.cos(2 * Math.PI * turns);
  let before = 0;
  let now = amplitude * decay * Math.sin(2 * Math.PI * turns);
  for (let index = 0; index < wave.length; index++) {
    wave[index]! += now;
    [before, now] = [now, turn * now - decay * decay * before];
  }
}

function envelope(index: number, length: number, sampleRate: number): number {
  const attack = Math.min(1, (index + 1) / (ATTACK_SEC * sampleRate));
  const release = Math.min(1, (length - 1 - index) / (RELEASE_SEC * sampleRate));
  return attack * release;
}

function dot(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, index) => sum + value * b[index]!, 0);
}
