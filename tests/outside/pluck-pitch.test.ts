import { PitchDetector } from 'pitchy';
import { describe, expect, it } from 'vitest';
import { COMMON_TUNINGS, frequencyHz, soundingPitch, type StringNumber } from '$lib/core/tune/tuning';
import { cents, frequencyNear, soundOf, stretch } from '../core/pluck/sound-measures';

/** ISO 16:1975, A4 = 440 Hz, in equal temperament: the table of SCIENCE.md section 4. [looked up: standard front matter] */
const TABLE: readonly [midi: number, hz: number][] = [
  [48, 130.8128],
  [50, 146.8324],
  [52, 164.8138],
  [54, 184.9972],
  [55, 195.9977],
  [57, 220],
  [59, 246.9417],
  [60, 261.6256],
  [61, 277.1826],
  [62, 293.6648],
  [64, 329.6276],
  [66, 369.9944],
  [67, 391.9954],
  [69, 440],
];

/** Every string of every tuning of SCIENCE.md section 4, with and without a capo at 2, at every fret up to 12. */
const NOTES = (() => {
  const notes = new Map<string, { string: StringNumber; pitch: number }>();
  for (const { tuning } of COMMON_TUNINGS)
    for (const capo of [0, 2])
      for (const string of [1, 2, 3, 4, 5] as const)
        for (let fret = 0; fret <= 12; fret++) {
          const pitch = soundingPitch({ tuning, capo, spike: capo }, string, fret);
          notes.set(`${string}:${pitch}`, { string, pitch });
        }
  return [...notes.values()];
})();

/** Samples in one window of the detector. The median of several is taken: now and then it takes two periods for one. */
const WINDOW = 8192;
const WINDOWS = 5;

function detected(samples: Float32Array, rate: number): number {
  const detector = PitchDetector.forFloat32Array(WINDOW);
  const first = Math.round(0.03 * rate);
  const found = Array.from({ length: WINDOWS }, (_, index) => {
    const from = first + index * 1500;
    return detector.findPitch(samples.subarray(from, from + WINDOW), rate)[0];
  });
  return found.sort((a, b) => a - b)[Math.floor(WINDOWS / 2)]!;
}

/** The table of ISO 16 for a pitch in it, by octaves for others. */
function tabled(pitch: number): number | null {
  for (const octave of [0, 12]) {
    const row = TABLE.find(([midi]) => midi + octave === pitch);
    if (row) return row[1] * 2 ** (octave / 12);
  }
  return null;
}

describe.each([44_100, 48_000])('every string at every fret, at %i samples a second', (rate) => {
  const sounds = NOTES.map((note) => ({
    ...note,
    samples: soundOf([{ atSec: 0, ...note, strength: 0.85 }], 0.45, rate),
  }));

  it('is in tune within a cent, by a general-purpose pitch detector (`pitchy`)', () => {
    expect(sounds.length).toBeGreaterThan(60);
    for (const { string, pitch, samples } of sounds) {
      const off = cents(detected(samples, rate), frequencyHz(pitch));
      expect(Math.abs(off), `string ${string}, MIDI ${pitch}: ${off} cents`).toBeLessThan(1);
    }
  });

  it('is in tune within a fifth of a cent, by the phase of its first and third partials (ours)', () => {
    for (const { string, pitch, samples } of sounds) {
      for (const partial of [1, 3]) {
        const wanted = partial * frequencyHz(pitch);
        const off = cents(frequencyNear(stretch(samples, 0.05, 0.4, rate), wanted, rate), wanted);
        expect(Math.abs(off), `string ${string}, MIDI ${pitch}, partial ${partial}`).toBeLessThan(0.2);
      }
    }
  });

  it('has the frequency of the table of ISO 16', () => {
    let compared = 0;
    for (const { pitch, samples } of sounds) {
      const hz = tabled(pitch);
      if (hz === null) continue;
      expect(Math.abs(cents(frequencyNear(stretch(samples, 0.05, 0.4, rate), hz, rate), hz))).toBeLessThan(1);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(40);
  });
});

describe('the two measures', () => {
  it('see what is a cent and a half off', () => {
    const samples = soundOf([{ atSec: 0, string: 2, pitch: 59.015, strength: 0.85 }], 0.45);
    const hz = frequencyHz(59);
    expect(cents(detected(samples, 48_000), hz)).toBeCloseTo(1.5, 0);
    expect(cents(detected(samples, 48_000), hz)).toBeGreaterThan(1);
    expect(cents(frequencyNear(stretch(samples, 0.05, 0.4), hz), hz)).toBeCloseTo(1.5, 1);
  });
});
