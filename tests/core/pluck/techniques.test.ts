import { describe, expect, it } from 'vitest';
import { plucksOf } from '$lib/core/pluck/plucks';
import type { Strike, Technique } from '$lib/core/tune/strike';
import { frequencyHz } from '$lib/core/tune/tuning';
import { cents, frequencyNear, levelDb, peak, soundOf, stretch } from './sound-measures';

const TEMPO = 75;
const SETUP = { tuning: [67, 50, 55, 59, 62], capo: 0, spike: 0 } as const;

/** Two notes on the first string of G tuning in 2/4, a beat (0.8 s) apart... of which the second is played by `technique`. */
function played(technique: Technique, fromFret: number, toFret: number): Float32Array {
  const strike = (beat: number, fret: number, how: Technique): Strike => ({
    onset: [beat, 4],
    duration: [1, 4],
    string: 1,
    fret,
    technique: how,
  });
  const strikes = [strike(0, fromFret, 'strike'), strike(1, toFret, technique)];
  const options = { setup: SETUP, meter: '2/4', tempo: TEMPO, sounded: 'both' } as const;
  const cues = plucksOf([{ strikes, from: [0, 1], to: [2, 1] }], options);
  return soundOf(
    cues.map(({ at, ...touch }) => ({ ...touch, atSec: ((at[0] / at[1]) * 60) / TEMPO })),
    1.6,
  );
}

const BEAT_SEC = 60 / TEMPO;
const aroundHz = (samples: Float32Array, fromSec: number, toSec: number, pitch: number) =>
  cents(frequencyNear(stretch(samples, fromSec, toSec), frequencyHz(pitch)), frequencyHz(pitch));

describe.each<[Technique, from: number, to: number]>([
  ['hammer-on', 0, 2],
  ['pull-off', 2, 0],
  ['slide', 2, 5],
])('a %s from fret %i to %i', (technique, from, to) => {
  const samples = played(technique, from, to);
  const struckAnew = played('strike', from, to);

  it('has the one pitch before it and the other from 30 ms after it, within a cent', () => {
    expect(Math.abs(aroundHz(samples, 0.1, BEAT_SEC - 0.1, 62 + from))).toBeLessThan(1);
    expect(Math.abs(aroundHz(samples, BEAT_SEC + 0.03, BEAT_SEC + 0.4, 62 + to))).toBeLessThan(1);
    expect(Math.abs(cents(frequencyHz(62 + from), frequencyHz(62 + to)))).toBeGreaterThan(190);
  });

  it('can be heard, and is softer than a strike', () => {
    const after = (sound: Float32Array) => levelDb(stretch(sound, BEAT_SEC, BEAT_SEC + 0.05));
    const level = after(samples);
    expect(level).toBeGreaterThan(-60);
    expect(level).toBeLessThan(after(struckAnew) - 3);
    if (technique === 'slide') return;
    // the finger adds to what still rings
    expect(level).toBeGreaterThan(levelDb(stretch(samples, BEAT_SEC - 0.05, BEAT_SEC)) + 6);
  });
});

describe('a slide', () => {
  it('glides: halfway it is between the frets, and it arrives on the beat', () => {
    const samples = played('slide', 2, 5);
    const middle = frequencyNear(stretch(samples, BEAT_SEC - 0.065, BEAT_SEC - 0.025), frequencyHz(65.5));
    expect(Math.abs(cents(middle, frequencyHz(65.5)))).toBeLessThan(60);
    expect(Math.abs(aroundHz(samples, BEAT_SEC + 0.004, BEAT_SEC + 0.104, 67))).toBeLessThan(3);
  });
});

describe('a brush', () => {
  it('runs across three strings, the thickest first, in 14 ms', () => {
    const strike: Strike = { onset: [0, 1], duration: [1, 4], string: 1, fret: 2, technique: 'brush' };
    const cues = plucksOf([{ strikes: [strike], from: [0, 1], to: [2, 1] }], {
      setup: SETUP,
      meter: '2/4',
      tempo: TEMPO,
      sounded: 'both',
    });
    expect(cues.map(({ string, pitch }) => [string, pitch])).toEqual([
      [3, 55],
      [2, 59],
      [1, 64],
    ]);
    const seconds = cues.map(({ at }) => ((at[0] / at[1]) * 60) / TEMPO);
    expect(seconds[0]).toBe(0);
    expect(seconds[1]).toBeCloseTo(0.007, 3);
    expect(seconds[2]).toBeCloseTo(0.014, 3);
    const samples = soundOf(
      cues.map(({ at: _, ...touch }, index) => ({ ...touch, atSec: seconds[index]! })),
      0.3,
    );
    const one = soundOf([{ atSec: 0, string: 3, pitch: 55, strength: cues[0]!.strength! }], 0.3);
    const second = Math.round(seconds[1]! * 48_000);
    expect(samples.subarray(0, second)).toEqual(one.subarray(0, second));
    expect(samples[second]).not.toBe(one[second]);
    expect(peak(samples)).toBeGreaterThan(peak(one));
  });
});
