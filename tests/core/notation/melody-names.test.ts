import { describe, expect, it } from 'vitest';
import { melodyNames } from '../../../src/lib/core/notation/melody-names';
import type { Rational } from '../../../src/lib/core/rhythm/rational';
import type { MelodyNote } from '../../../src/lib/core/tune/melody';

const at = (onset: Rational, pitch: number, more: Partial<MelodyNote> = {}): MelodyNote => ({
  ...{ onset, duration: [1, 8], pitch },
  ...more,
});
const places = [{ onset: [0, 1] }, { onset: [1, 8] }, { onset: [1, 4] }, { onset: [3, 8] }] as const;

describe('the names of a melody at the places of a measure', () => {
  it('stand where notes begin, higher for higher notes', () => {
    // D4, F#4 and D5 are MIDI 62, 66 and 74; an octave is seven steps of the scale (common practice)
    const melody = [at([0, 1], 62), at([1, 8], 66), at([3, 8], 74)];
    expect(melodyNames(melody, places)).toEqual([
      { text: 'D', spoken: 'melody D', lift: 0 },
      { text: 'F#', spoken: 'melody F sharp', lift: 2 },
      null,
      { text: 'D', spoken: 'melody D', lift: 7 },
    ]);
  });

  it('say what is held over, and of notes at one place the highest first', () => {
    const melody = [at([1, 4], 67, { tied: true }), at([1, 4], 71)];
    expect(melodyNames(melody, places)[2]).toEqual({
      text: 'B (G)',
      spoken: 'melody B and G held',
      lift: 2,
    });
  });

  it('are none without a melody', () => {
    expect(melodyNames([], places)).toEqual([null, null, null, null]);
  });
});
