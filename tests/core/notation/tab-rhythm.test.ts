import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flagsOf, noteValue, pieces } from '../../../src/lib/core/notation/note-values';
import {
  beamGroups,
  beamsOf,
  rhythmColumns,
  tripletRuns,
} from '../../../src/lib/core/notation/rhythm-columns';
import { METERS, meterShape } from '../../../src/lib/core/rhythm/meter';
import {
  add,
  compare,
  equal,
  multiply,
  rational,
  ZERO,
  type Rational,
} from '../../../src/lib/core/rhythm/rational';

const timed = (onset: Rational, duration: Rational) => ({ onset, duration });
const whole = (to: Rational) => ({ from: ZERO, to });
const valueLength = (length: Rational) => {
  const value = noteValue(length)!;
  return [value.power, value.dots, value.isTriplet];
};

describe('note values (the values of common notation)', () => {
  it('are halvings of a whole note, dots that add a half and a half of that, and three in the time of two', () => {
    expect(valueLength([1, 1])).toEqual([0, 0, false]);
    expect(valueLength([1, 4])).toEqual([2, 0, false]);
    expect(valueLength([3, 8])).toEqual([2, 1, false]);
    expect(valueLength([7, 16])).toEqual([2, 2, false]);
    expect(valueLength([1, 12])).toEqual([3, 0, true]);
    expect(valueLength([1, 24])).toEqual([4, 0, true]);
    expect(noteValue([5, 16])).toBeNull();
    expect(noteValue([1, 20])).toBeNull();
    expect(noteValue([2, 1])).toBeNull();
  });

  it('have flags from the eighth note on', () => {
    expect([1, 2, 4, 8, 16, 32].map((unit) => flagsOf(noteValue([1, unit])!))).toEqual([0, 0, 0, 1, 2, 3]);
  });

  it('are tied over the beat where one would hide it, but for an off-beat quarter', () => {
    const beat: Rational = [1, 4];
    const onsets = (onset: Rational, end: Rational) => pieces(onset, end, beat).map((piece) => piece.onset);
    expect(onsets([1, 8], [3, 8])).toEqual([[1, 8]]);
    expect(onsets([3, 16], [3, 8])).toEqual([
      [3, 16],
      [1, 4],
    ]);
    expect(onsets(ZERO, [5, 16])).toEqual([ZERO, [1, 4]]);
  });

  it('add up to the length that they write, in every length of sixteenths and triplets', () => {
    const place = fc.oneof(
      fc.integer({ min: 0, max: 32 }).map((count) => rational(count, 16)),
      fc.integer({ min: 0, max: 24 }).map((count) => rational(count, 12)),
    );
    fc.assert(
      fc.property(
        place,
        fc.integer({ min: 1, max: 32 }),
        fc.constantFrom(...METERS),
        (onset, sixteenths, meter) => {
          fc.pre(onset[1] % 3 !== 0 || sixteenths % 4 === 0);
          const end = add(onset, rational(sixteenths, 16));
          let at = onset;
          for (const { onset: start, value } of pieces(onset, end, meterShape(meter).beat)) {
            expect(start).toEqual(at);
            const plain = multiply([2 ** (value.dots + 1) - 1, 2 ** value.dots], [1, 2 ** value.power]);
            at = add(at, value.isTriplet ? multiply(plain, [2, 3]) : rational(...plain));
          }
          expect(equal(at, end)).toBe(true);
        },
      ),
    );
  });
});

describe('columns', () => {
  it('of tab ring to the next strike of their beat, and rest where a beat begins in silence', () => {
    const strikes = [timed(ZERO, [1, 16]), timed([1, 8], [1, 16])];
    const columns = rhythmColumns(strikes, whole([1, 2]), '2/4', 'tab');
    expect(columns.map(({ kind, value }) => [kind, value.power])).toEqual([
      ['note', 3],
      ['note', 3],
      ['rest', 2],
    ]);
  });

  it('of a melody are as long as they are written', () => {
    const notes = [timed(ZERO, [1, 16]), timed([1, 8], [1, 8])];
    const columns = rhythmColumns(notes, whole([1, 4]), '2/4', 'melody');
    expect(columns.map(({ kind, value }) => [kind, value.power])).toEqual([
      ['note', 4],
      ['rest', 4],
      ['note', 3],
    ]);
  });

  it('share a beam by the beat: bum-ditty is an eighth and two sixteenths, twice (common practice)', () => {
    const strikes = [0, 2, 3, 4, 6, 7].map((sixteenth) => timed(rational(sixteenth, 16), [1, 16]));
    const groups = beamGroups(rhythmColumns(strikes, whole([1, 2]), '2/4', 'tab'), '2/4');
    expect(groups.map((group) => group.map(({ value }) => value.power))).toEqual([
      [3, 4, 4],
      [3, 4, 4],
    ]);
    expect(beamsOf(groups[0]!)).toEqual([
      { level: 1, first: 0, last: 2, stub: null },
      { level: 2, first: 1, last: 2, stub: null },
    ]);
  });

  it('draw a lone sixteenth as a stub towards its group', () => {
    const dotted = [timed(ZERO, [3, 16]), timed([3, 16], [1, 16])];
    const [group] = beamGroups(rhythmColumns(dotted, whole([1, 4]), '2/4', 'melody'), '2/4');
    expect(beamsOf(group!)[1]).toEqual({ level: 2, first: 1, last: 1, stub: 'left' });
    const snap = [timed(ZERO, [1, 16]), timed([1, 16], [3, 16])];
    const [other] = beamGroups(rhythmColumns(snap, whole([1, 4]), '2/4', 'melody'), '2/4');
    expect(beamsOf(other!)[1]).toEqual({ level: 2, first: 0, last: 0, stub: 'right' });
  });

  it('mark triplets beat by beat', () => {
    const six = [0, 1, 2, 3, 4, 5].map((third) => timed(rational(third, 12), [1, 12]));
    const columns = rhythmColumns(six, whole([1, 2]), '2/4', 'tab');
    expect(tripletRuns(columns, '2/4')).toEqual([
      { first: 0, last: 2 },
      { first: 3, last: 5 },
    ]);
  });

  it('stand in order inside their span, whatever the notes', () => {
    const note = fc.tuple(fc.nat(31), fc.integer({ min: 1, max: 40 }), fc.constantFrom(16, 24, 20));
    fc.assert(
      fc.property(fc.array(note, { maxLength: 16 }), fc.constantFrom('tab', 'melody'), (drawn, style) => {
        const notes = drawn
          .map(([at, long, unit]) => timed(rational(at, 16), rational(long, unit)))
          .sort((a, b) => compare(a.onset, b.onset));
        const columns = rhythmColumns(notes, whole([1, 1]), '4/4', style);
        for (const [index, { onset }] of columns.entries()) {
          expect(compare(onset, [1, 1])).toBeLessThan(0);
          const before = columns[index - 1];
          if (before) expect(compare(before.onset, onset)).toBeLessThan(0);
        }
        const heard = notes
          .filter(({ onset }) => compare(onset, [1, 1]) < 0)
          .map(({ onset }) => onset.join());
        const told = columns.filter(({ kind }) => kind === 'note').map(({ onset }) => onset.join());
        expect(told).toEqual([...new Set(heard)]);
      }),
    );
  });
});
