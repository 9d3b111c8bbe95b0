import noteNames from '@tonaljs/note';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { staffPlace } from '../../../src/lib/core/notation/staff-steps';
import { tabLayout } from '../../../src/lib/core/notation/tab-layout';
import { pitchName } from '../../../src/lib/core/tune/tuning';
import type { MelodyNote } from '../../../src/lib/core/tune/melody';
import { measureAt, METER } from './stretches';

const note = (onset: MelodyNote['onset'], pitch: number, more: Partial<MelodyNote> = {}): MelodyNote => ({
  onset,
  duration: [1, 8],
  pitch,
  ...more,
});
const melodyAt = (index: number, melody: readonly MelodyNote[]) => {
  const place = measureAt(index, null);
  return { ...place, figure: { ...place.figure, melody } };
};

describe('a melody that has no tab', () => {
  it('stands on the lines E G B D F of the treble clef (common practice)', () => {
    expect([64, 67, 71, 74, 77].map(staffPlace)).toEqual([0, 2, 4, 6, 8].map((step) => ({ step, sign: 0 })));
    expect(staffPlace(66)).toEqual({ step: 1, sign: 1 });
    expect(staffPlace(60).step).toBe(-2);
  });

  it('stands where another library names each pitch (@tonaljs/note: letter and octave)', () => {
    for (let pitch = 24; pitch <= 108; pitch++) {
      const named = noteNames.get(`${pitchName(pitch)}${Math.floor(pitch / 12) - 1}`);
      if (named.empty) throw new Error(`No name for ${pitch}`);
      const { step, alt, oct, midi } = named;
      expect(midi).toBe(pitch);
      expect(staffPlace(pitch)).toEqual({ step: step + 7 * (oct ?? 0) - 30, sign: alt });
    }
  });

  it('is drawn on a staff, not on strings, and is named as melody', () => {
    const [line] = tabLayout([melodyAt(0, [note([0, 1], 67)])], METER, { width: 390 }).lines;
    expect(line!.staffs.match(/M/g)).toHaveLength(5);
    expect(line!.long + line!.short).toBe('');
    expect(line!.labels.map(({ text }) => text)).toEqual(['melody, no tab yet']);
    expect(line!.missing).toEqual([]);
    expect(line!.ink.notes).toEqual([]);
    expect(line!.ink.solid).not.toBe('');
  });

  it('is written an octave higher, with an 8 at its G, when it lies low', () => {
    const clefs = (pitch: number) =>
      tabLayout([melodyAt(0, [note([0, 1], pitch)])], METER, { width: 390 }).lines[0]!.clefs;
    expect(clefs(67).map(({ text }) => text)).toEqual(['G']);
    expect(clefs(50).map(({ text }) => text)).toEqual(['G', '8']);
  });

  it('ties what is held over', () => {
    const arcs = (melody: readonly MelodyNote[]) =>
      tabLayout([melodyAt(0, melody)], METER, { width: 390 }).lines[0]!.ink.arcs;
    expect(arcs([note([0, 1], 67), note([1, 8], 67)])).toBe('');
    expect(arcs([note([0, 1], 67), note([1, 8], 67, { tied: true })]).match(/M/g)).toHaveLength(1);
  });

  it('keeps every stroke inside the drawing, from the lowest string to high up the neck', () => {
    const drawn = fc.tuple(fc.nat(3), fc.integer({ min: 48, max: 86 }));
    fc.assert(
      fc.property(
        fc.array(drawn, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 320, max: 1300 }),
        (notes, width) => {
          const melody = notes
            .map(([at, pitch]) => note([at, 8], pitch))
            .sort((a, b) => a.onset[0] - b.onset[0] || b.pitch - a.pitch);
          const { lines, height } = tabLayout([melodyAt(0, melody)], METER, { width });
          const { ink } = lines[0]!;
          for (const [, y] of (ink.solid + ink.strokes).matchAll(/M-?[\d.]+ (-?[\d.]+)/g)) {
            expect(Number(y)).toBeGreaterThanOrEqual(0);
            expect(Number(y)).toBeLessThanOrEqual(height);
          }
        },
      ),
    );
  });
});
