import type { Accent } from './patterns';

/** Loudest sample of a click; what is left to 1 keeps a device's own filters from clipping. */
export const CLICK_PEAK = 0.9;

/** Shorter than the densest strokes (300 beats a minute in quarters of a beat: 50 ms apart), so that clicks never overlap. */
const LENGTH_SEC = 0.045;
const ATTACK_SEC = 0.0002;
const RELEASE_SEC = 0.006;

/**
 * A small wooden bar struck on its edge. The modes of a bar with free ends lie at 1 : 2.756 : 5.404 (Euler-Bernoulli
 * beam, from memory); higher ones die sooner. Their range, 2 to 7 kHz, lies above most of what a banjo's strings
 * give, so that the click needs little level to be heard.
 */
const MODES = [
  { ratio: 1, amplitude: 1, decaySec: 0.009 },
  { ratio: 2.756, amplitude: 0.55, decaySec: 0.004 },
  { ratio: 5.404, amplitude: 0.2, decaySec: 0.0015 },
] as const;

const VOICES: Record<Accent, { pitchHz: number; level: number }> = {
  first: { pitchHz: 2640, level: 1 },
  beat: { pitchHz: 1980, level: 0.75 },
  light: { pitchHz: 1980, level: 0.4 },
};

/**
 * One click as samples at a rate: the first sample is the stroke itself and not 0, the last one is 0, the sum of all
 * is 0 (no direct current), the peak is CLICK_PEAK times the accent's level.
 */
export function clickSound(accent: Accent, sampleRate: number): Float32Array {
  const { pitchHz, level } = VOICES[accent];
  const length = Math.round(LENGTH_SEC * sampleRate);
  const window = Float64Array.from({ length }, (_, index) => envelope(index, length, sampleRate));
  const wave = window.map((gain, index) => gain * barAt((index + 1) / sampleRate, pitchHz, sampleRate));
  const offset = sum(wave) / sum(window);
  const balanced = wave.map((sample, index) => sample - offset * window[index]!);
  const peak = balanced.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return Float32Array.from(balanced, (sample) => (sample * level * CLICK_PEAK) / peak);
}

export function clickSounds(sampleRate: number): Record<Accent, Float32Array> {
  return {
    first: clickSound('first', sampleRate),
    beat: clickSound('beat', sampleRate),
    light: clickSound('light', sampleRate),
  };
}

function barAt(timeSec: number, pitchHz: number, sampleRate: number): number {
  return MODES.filter(({ ratio }) => ratio * pitchHz < 0.45 * sampleRate).reduce(
    (total, { ratio, amplitude, decaySec }) =>
      total + amplitude * Math.exp(-timeSec / decaySec) * Math.sin(2 * Math.PI * ratio * pitchHz * timeSec),
    0,
  );
}

function envelope(index: number, length: number, sampleRate: number): number {
  const attack = Math.min(1, (index + 1) / (ATTACK_SEC * sampleRate));
  const release = Math.min(1, (length - 1 - index) / (RELEASE_SEC * sampleRate));
  return attack * release;
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}
