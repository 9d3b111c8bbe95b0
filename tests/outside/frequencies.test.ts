import * as Note from '@tonaljs/note';
import { describe, expect, it } from 'vitest';
import {
  COMMON_TUNINGS,
  frequencyHz,
  soundingPitch,
  type StringNumber,
  type Tuning,
} from '$lib/core/tune/tuning';

/** ISO 16:1975, A4 = 440 Hz [looked up: standard front matter], in equal temperament: the table of SCIENCE.md section 4. */
const TABLE: readonly [note: string, midi: number, hz: number][] = [
  ['C3', 48, 130.8128],
  ['D3', 50, 146.8324],
  ['E3', 52, 164.8138],
  ['F#3', 54, 184.9972],
  ['G3', 55, 195.9977],
  ['A3', 57, 220],
  ['B3', 59, 246.9417],
  ['C4', 60, 261.6256],
  ['C#4', 61, 277.1826],
  ['D4', 62, 293.6648],
  ['E4', 64, 329.6276],
  ['F#4', 66, 369.9944],
  ['G4', 67, 391.9954],
  ['A4', 69, 440],
];

/** Strings 5-4-3-2-1 [common practice, SCIENCE.md section 4], spelled for the reference library. */
const OPEN_STRINGS: Record<string, readonly string[]> = {
  gDGBD: ['G4', 'D3', 'G3', 'B3', 'D4'],
  gCGCD: ['G4', 'C3', 'G3', 'C4', 'D4'],
  gDGCD: ['G4', 'D3', 'G3', 'C4', 'D4'],
  aDADE: ['A4', 'D3', 'A3', 'D4', 'E4'],
  gCGBD: ['G4', 'C3', 'G3', 'B3', 'D4'],
  'aEAC#E': ['A4', 'E3', 'A3', 'C#4', 'E4'],
  aEADE: ['A4', 'E3', 'A3', 'D4', 'E4'],
  'f#DF#AD': ['F#4', 'D3', 'F#3', 'A3', 'D4'],
};

const STRINGS: readonly StringNumber[] = [5, 4, 3, 2, 1];

describe('frequencies', () => {
  it.each(TABLE)('%s is MIDI %i and %f Hz, within 0.01 Hz', (note, midi, hz) => {
    expect(Math.abs(frequencyHz(midi) - hz)).toBeLessThan(0.01);
    expect(Note.midi(note)).toBe(midi);
    // the neighbouring semitone must not pass for it
    expect(Math.abs(frequencyHz(midi + 1) - hz)).toBeGreaterThan(1);
  });

  it('an octave is exactly twice as high', () => {
    expect(frequencyHz(69)).toBe(440);
    expect(frequencyHz(81)).toBe(880);
    for (let midi = 36; midi < 84; midi++)
      expect(frequencyHz(midi + 12) / frequencyHz(midi)).toBeCloseTo(2, 13);
  });

  /** Reference library: `@tonaljs/note`. */
  it('of the open strings of every common tuning agree with a reference library', () => {
    expect(COMMON_TUNINGS.map(({ name }) => name).sort()).toEqual(Object.keys(OPEN_STRINGS).sort());
    for (const { name, tuning } of COMMON_TUNINGS) {
      const notes = OPEN_STRINGS[name] ?? [];
      expect(notes.map((note) => Note.midi(note))).toEqual([...tuning]);
      notes.forEach((note, index) => {
        expect(frequencyHz(tuning[index]!)).toBeCloseTo(Note.freq(note) ?? NaN, 9);
      });
    }
  });
});

/** SCIENCE.md check 15 [common practice]: capo 2 on the long strings, and the short one raised by two. */
describe('a capo', () => {
  const called = (name: string): Tuning => {
    const found = COMMON_TUNINGS.find((tuning) => tuning.called === name);
    if (!found) throw new Error(`No common tuning is called ${name}`);
    return found.tuning;
  };

  it.each([
    ['G', 'A'],
    ['sawmill', 'A modal'],
    ['double C', 'double D'],
  ])('at the second fret makes %s into %s', (from, to) => {
    const setup = { tuning: called(from), capo: 2, spike: 2 };
    expect(STRINGS.map((string) => soundingPitch(setup, string, 0))).toEqual([...called(to)]);
    const withoutSpike = { ...setup, spike: 0 };
    expect(STRINGS.map((string) => soundingPitch(withoutSpike, string, 0))).not.toEqual([...called(to)]);
  });

  /** MusicXML 4.0: strings are numbered from the highest FULL-LENGTH string [looked up], so the short one stays 5. */
  it('leaves the short string the fifth, though it is the highest', () => {
    for (const { tuning } of COMMON_TUNINGS) {
      const fifth = soundingPitch({ tuning, capo: 0, spike: 0 }, 5, 0);
      expect(fifth).toBe(tuning[0]);
      expect(fifth).toBe(Math.max(...tuning));
    }
  });
});
