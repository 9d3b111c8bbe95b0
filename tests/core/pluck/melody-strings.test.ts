import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { melodyOnStrings } from '$lib/core/pluck/melody-strings';
import { plucksOf, type PluckOptions } from '$lib/core/pluck/plucks';
import { rational } from '$lib/core/rhythm/rational';
import { compareNotes, type MelodyNote } from '$lib/core/tune/melody';
import { COMMON_TUNINGS, soundingPitch } from '$lib/core/tune/tuning';

const SETUP = { tuning: [67, 50, 55, 59, 62], capo: 0, spike: 0 } as const;
const OPTIONS: PluckOptions = { setup: SETUP, meter: '2/4', tempo: 100, sounded: 'both' };
const note = (sixteenth: number, pitch: number): MelodyNote => ({
  onset: rational(sixteenth, 16),
  duration: [1, 16],
  pitch,
});
const stringsOf = (pitches: readonly number[], setup = SETUP) =>
  melodyOnStrings(
    pitches.map((pitch, index) => note(index, pitch)),
    setup,
  ).map(({ string }) => string);

describe('a melody without fingering', () => {
  it('lies on the open strings and just above them, as players lay it (common practice)', () => {
    // D G A B C D E in gDGBD: the scale that begins at the open fourth string
    expect(stringsOf([50, 55, 57, 59, 60, 62, 64])).toEqual([4, 3, 3, 2, 2, 1, 1]);
  });

  it('is played on the lowest string when it lies below all, and never on the short one', () => {
    expect(stringsOf([40, 90])).toEqual([4, 1]);
  });

  it('is not struck again where it is tied', () => {
    const tied: MelodyNote = { ...note(4, 62), tied: true };
    expect(melodyOnStrings([note(0, 62), tied], SETUP)).toHaveLength(1);
  });

  it('is heard at its places of the stretch, with the nail, and not as a drone', () => {
    const stretch = { strikes: null, melody: [note(0, 62), note(4, 59), note(6, 55)] };
    const side = { ...stretch, from: rational(1), to: rational(2) };
    expect(plucksOf([side], OPTIONS)).toMatchObject([
      { at: [0, 1], string: 2, pitch: 59, touch: 'nail' },
      { at: [1, 2], string: 3, pitch: 55, touch: 'nail' },
    ]);
    expect(plucksOf([side], { ...OPTIONS, sounded: 'melody' })).toHaveLength(2);
    expect(plucksOf([side], { ...OPTIONS, sounded: 'drone' })).toEqual([]);
  });

  it('gives way to tab', () => {
    const both = { strikes: [], melody: [note(0, 62)], from: rational(0), to: rational(2) };
    expect(plucksOf([both], OPTIONS)).toEqual([]);
  });

  it('has a string of its own for each note that sounds at once, the highest open one that is not above it', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...COMMON_TUNINGS),
        fc.array(fc.tuple(fc.nat(7), fc.integer({ min: 24, max: 108 })), { maxLength: 12 }),
        ({ tuning }, drawn) => {
          const setup = { tuning, capo: 0, spike: 0 };
          const melody = drawn.map(([at, pitch]) => note(at, pitch)).sort(compareNotes);
          const strung = melodyOnStrings(melody, setup);
          const keys = strung.map(({ note: { onset }, string }) => `${onset.join('/')} ${string}`);
          expect(new Set(keys).size).toBe(keys.length);
          for (const onset of new Set(drawn.map(([at]) => at))) {
            const here = melody.filter(({ onset: [n, d] }) => (n * 16) / d === onset);
            const there = strung.filter(({ note: other }) => here.includes(other));
            expect(there).toHaveLength(Math.min(4, here.length));
            const lone = there[0];
            if (!lone || here.length > 1) continue;
            const lower = ([1, 2, 3, 4] as const).map((one) => soundingPitch(setup, one, 0));
            const below = lower.filter((open) => open <= lone.note.pitch);
            expect(soundingPitch(setup, lone.string, 0)).toBe(
              below.length > 0 ? Math.max(...below) : Math.min(...lower),
            );
          }
        },
      ),
    );
  });
});
