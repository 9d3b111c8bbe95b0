import fc from 'fast-check';
import { safeParse } from 'valibot';
import { describe, expect, test } from 'vitest';
import { readMeasureDraft } from '../../../src/lib/core/book/measure-draft';
import { strikesSchema } from '../../../src/lib/core/book/schema-words';
import {
  clearPlace,
  clearTab,
  copyInto,
  endOf,
  hasOwnLength,
  noteAt,
  putNote,
  setBeats,
  setLabel,
  takeNote,
  type MeasureWriting,
} from '../../../src/lib/core/notation/measure-edit';
import { grainsFor, GRAINS, gridPlaces } from '../../../src/lib/core/notation/measure-grid';
import { measureHints } from '../../../src/lib/core/notation/measure-hints';
import {
  fillMeasure,
  FILLS,
  fillUnit,
  fillUnits,
  unitOf,
} from '../../../src/lib/core/notation/measure-patterns';
import { melodyOnNeck } from '../../../src/lib/core/notation/melody-in-reach';
import { slotLength } from '../../../src/lib/core/notation/slots';
import { firstStep, redo, step, undo } from '../../../src/lib/core/notation/undo-steps';
import { METERS, type Meter } from '../../../src/lib/core/rhythm/meter';
import {
  add,
  compare,
  equal,
  rational,
  type Rational,
  subtract,
} from '../../../src/lib/core/rhythm/rational';
import { FINGERS, TECHNIQUES, WEIGHTS, type Strike } from '../../../src/lib/core/tune/strike';
import type { StringNumber } from '../../../src/lib/core/tune/tuning';

const EMPTY: MeasureWriting = { beats: 2, strikes: null, labels: [] };
const STRINGS: readonly StringNumber[] = [1, 2, 3, 4, 5];
const told = (writing: MeasureWriting): string[] =>
  (writing.strikes ?? []).map(
    ({ onset, duration, string, fret, technique }) =>
      `${onset.join('/')}+${duration.join('/')} ${string}:${fret} ${technique}`,
  );

type Edit = (writing: MeasureWriting, meter: Meter) => MeasureWriting;
const string = fc.constantFrom(...STRINGS);
const slot = fc.integer({ min: 0, max: 30 });
/** A place of the grid at some grain, by its number. */
function placed(meter: Meter, writing: MeasureWriting, number: number): Rational {
  const grain = GRAINS[number % 3] ?? 'usual';
  const places = gridPlaces(
    meter,
    writing.beats,
    Array.from({ length: 40 }, () => grain),
    [],
  );
  return places[number % places.length]?.onset ?? [0, 1];
}
const change = fc.record(
  {
    fret: fc.integer({ min: -3, max: 40 }),
    technique: fc.constantFrom(...TECHNIQUES),
    finger: fc.constantFrom(null, ...FINGERS),
    weight: fc.constantFrom(null, ...WEIGHTS),
    duration: fc.constantFrom<Rational | null>(null, [1, 16], [3, 8], [2, 1]),
  },
  { requiredKeys: [] },
);
const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.tuple(slot, string, change).map(
    ([at, on, what]): Edit =>
      (w, m) =>
        putNote(w, m, { onset: placed(m, w, at), string: on }, what),
  ),
  fc.tuple(slot, string).map(
    ([at, on]): Edit =>
      (w, m) =>
        takeNote(w, m, placed(m, w, at), on),
  ),
  slot.map(
    (at): Edit =>
      (w, m) =>
        clearPlace(w, m, placed(m, w, at)),
  ),
  fc.constant<Edit>(clearTab),
  fc.integer({ min: -2, max: 80 }).map(
    (halves): Edit =>
      (w, m) =>
        setBeats(w, m, halves / 2),
  ),
  fc.tuple(slot, fc.constantFrom(...FILLS), string).map(
    ([at, fill, on]): Edit =>
      (w, m) =>
        fillUnit(w, m, unitOf(m, w.beats, placed(m, w, at)), fill, on),
  ),
  fc.constantFrom(...FILLS).map(
    (fill): Edit =>
      (w, m) =>
        fillMeasure(w, m, fill),
  ),
  fc.tuple(slot, fc.constantFrom('chord' as const, 'word' as const), fc.constantFrom('', 'G', 'la')).map(
    ([at, kind, text]): Edit =>
      (w, m) =>
        setLabel(w, placed(m, w, at), kind, text),
  ),
  fc.constant<Edit>((w, m) =>
    copyInto(w, m, {
      beats: 3,
      strikes: [{ onset: [1, 4], duration: [1, 8], string: 2, fret: 1, technique: 'strike' }],
    }),
  ),
);
const edits = fc.array(edit, { maxLength: 25 });
const meter = fc.constantFrom(...METERS);

describe('any edits', () => {
  test('leave a measure that the book takes: in order, inside, one note a string and place', () => {
    fc.assert(
      fc.property(meter, edits, (m, list) => {
        let writing: MeasureWriting = EMPTY;
        for (const apply of list) writing = apply(writing, m);
        const draft = { writing, base: 'as it was', asides: [writing] };
        expect(readMeasureDraft(JSON.parse(JSON.stringify(draft)))).toEqual(draft);
        const end = endOf(writing, m);
        for (const { onset, duration } of writing.strikes ?? []) {
          expect(compare(add(onset, duration), end)).toBeLessThanOrEqual(0);
        }
        for (const label of writing.labels) expect(compare(label.onset, end)).toBeLessThan(0);
        const spots = (writing.strikes ?? []).map((strike) => `${strike.onset.join('/')} ${strike.string}`);
        expect(new Set(spots).size).toBe(spots.length);
      }),
      { numRuns: 300 },
    );
  });

  test('can all be undone, and redone to the same', () => {
    fc.assert(
      fc.property(meter, edits, (m, list) => {
        let steps = firstStep(EMPTY);
        for (const apply of list) steps = step(steps, apply(steps.present, m));
        const last = steps.present;
        const made = steps.past.length;
        for (let n = 0; n < made; n++) steps = undo(steps);
        expect(steps.present).toBe(EMPTY);
        expect(undo(steps)).toBe(steps);
        for (let n = 0; n < made; n++) steps = redo(steps);
        expect(steps.present).toBe(last);
        expect(redo(steps)).toBe(steps);
      }),
      { numRuns: 100 },
    );
  });

  test('keep every note within reach of the grid', () => {
    fc.assert(
      fc.property(meter, edits, (m, list) => {
        const writing = list.reduce((w, apply) => apply(w, m), EMPTY);
        const onsets = (writing.strikes ?? []).map(({ onset }) => onset);
        const places = gridPlaces(m, writing.beats, grainsFor(m, writing.beats, onsets), onsets);
        for (const onset of onsets) expect(places.some((place) => equal(place.onset, onset))).toBe(true);
        for (const [i, place] of places.entries()) {
          const next = places[i + 1];
          if (next) expect(compare(place.onset, next.onset)).toBeLessThan(0);
        }
      }),
      { numRuns: 100 },
    );
  });
});

test('a step after an undo ends what could be redone', () => {
  const steps = step(undo(step(step(firstStep(1), 2), 3)), 4);
  expect([steps.past, steps.present, redo(steps)]).toEqual([[1, 2], 4, steps]);
});

describe('lengths', () => {
  const put = (writing: MeasureWriting, onset: Rational, on: StringNumber, what = {}): MeasureWriting =>
    putNote(writing, '2/4', { onset, string: on }, what);

  test('a note lasts until the next strike, whenever that is written or taken off', () => {
    const one = put(EMPTY, [0, 1], 1, { fret: 2 });
    expect(told(one)).toEqual(['0/1+1/2 1:2 strike']);
    const two = put(one, [3, 16], 5);
    expect(told(two)).toEqual(['0/1+3/16 1:2 strike', '3/16+5/16 5:0 drone']);
    expect(told(takeNote(two, '2/4', [3, 16], 5))).toEqual(told(one));
  });

  test('a length that was set stays, within the measure, until it is given back', () => {
    const long = put(put(EMPTY, [0, 1], 1, { duration: [3, 8] }), [1, 8], 2);
    expect(told(long)).toEqual(['0/1+3/8 1:0 strike', '1/8+3/8 2:0 strike']);
    expect(hasOwnLength(long, '2/4', long.strikes?.[0] as Strike)).toBe(true);
    expect(told(put(long, [0, 1], 1, { fret: 3 }))[0]).toBe('0/1+3/8 1:3 strike');
    expect(told(put(long, [0, 1], 1, { duration: null }))[0]).toBe('0/1+1/8 1:0 strike');
    expect(told(setBeats(long, '2/4', 1))).toEqual(['0/1+1/4 1:0 strike', '1/8+1/8 2:0 strike']);
  });

  test('the last note taken off leaves a measure without tab', () => {
    expect(takeNote(put(EMPTY, [0, 1], 1), '2/4', [0, 1], 1).strikes).toBeNull();
  });

  test('frets stay on the neck', () => {
    expect(noteAt(put(EMPTY, [0, 1], 1, { fret: 40 }), [0, 1], 1)?.fret).toBe(22);
  });
});

test('the book would refuse notes out of order, so order is worth checking', () => {
  const [late, early] = [rational(1, 4), rational(0)].map((onset) => ({
    ...{ onset, duration: [1, 4], string: 1, fret: 0, technique: 'strike' },
  }));
  expect(safeParse(strikesSchema, [late, early]).success).toBe(false);
});

describe('the down-stroke pattern', () => {
  // common practice: the long-short-short of this style, counted 1 & a; a brush on the off-beat, the drone after it
  const note: Strike = { onset: [0, 1], duration: [1, 2], string: 2, fret: 1, technique: 'strike' };
  const written = (beats: number): MeasureWriting => ({ beats, strikes: [note], labels: [] });

  test('2/4: one beat is an eighth and two sixteenths', () => {
    expect(told(fillUnit(written(1), '2/4', [0, 1], 'note-brush-drone', 1))).toEqual([
      '0/1+1/8 2:1 strike',
      '1/8+1/16 1:0 brush',
      '3/16+1/16 5:0 drone',
    ]);
  });
  test('4/4: two beats are a quarter and two eighths', () => {
    expect(told(fillMeasure(written(2), '4/4', 'note-brush-drone'))).toEqual([
      '0/1+1/4 2:1 strike',
      '1/4+1/8 1:0 brush',
      '3/8+1/8 5:0 drone',
    ]);
  });
  test('6/8: one beat is three eighths', () => {
    expect(told(fillMeasure(written(1), '6/8', 'note-brush-drone'))).toEqual([
      '0/1+1/8 2:1 strike',
      '1/8+1/8 1:0 brush',
      '1/4+1/8 5:0 drone',
    ]);
  });
  test('3/4: a note, then brush and drone on each other beat', () => {
    expect(told(fillMeasure(written(3), '3/4', 'note-brush-drone'))).toEqual([
      '0/1+1/4 2:1 strike',
      '1/4+1/8 1:0 brush',
      '3/8+1/8 5:0 drone',
      '1/2+1/8 1:0 brush',
      '5/8+1/8 5:0 drone',
    ]);
  });
  test('the thumb drops to a string inside the one struck', () => {
    expect(told(fillUnit(written(1), '2/4', [0, 1], 'drop-thumb', 1))[1]).toBe('1/16+1/16 3:0 drop-thumb');
  });
  test('a triplet is left alone, and the drone comes after it where there is a slot', () => {
    const third = (n: number): Strike => ({
      ...{ onset: rational(n, 12), duration: rational(1, 12), string: 1, fret: n, technique: 'strike' },
    });
    const triplet: MeasureWriting = { ...EMPTY, strikes: [third(0), third(1), third(2)] };
    expect(fillMeasure(triplet, '2/4', 'note-brush-drone')).toBe(triplet);
    const two: MeasureWriting = { ...EMPTY, strikes: [third(0), third(1)] };
    expect(told(fillMeasure(two, '2/4', 'note-brush-drone'))).toEqual([
      '0/1+1/12 1:0 strike',
      '1/12+5/48 1:1 strike',
      '3/16+5/16 5:0 drone',
    ]);
  });
  test('without a note it is built on the open string in hand', () => {
    expect(told(fillUnit(EMPTY, '2/4', [1, 4], 'note-drone', 3))[0]).toBe('1/4+1/16 3:0 strike');
  });
  test('a measure without melody is left as it is', () => {
    expect(fillMeasure(EMPTY, '2/4', 'drop-thumb')).toBe(EMPTY);
  });

  test('fills its unit exactly, keeps the melody and filling twice is filling once', () => {
    fc.assert(
      fc.property(meter, edits, fc.constantFrom(...FILLS), slot, (m, list, fill, at) => {
        const before = list.reduce((w, apply) => apply(w, m), EMPTY);
        const start = unitOf(m, before.beats, placed(m, before, at));
        const filled = fillUnit(before, m, start, fill, 1);
        const starts = fillUnits(m, before.beats);
        const end = starts.find((unit) => compare(unit, start) > 0) ?? endOf(before, m);
        const inside = (filled.strikes ?? []).filter(
          ({ onset }) => compare(onset, start) >= 0 && compare(onset, end) < 0,
        );
        const onsets = inside
          .map(({ onset }) => onset)
          .filter((onset, i, all) => i === 0 || !equal(onset, all[i - 1] as Rational));
        const melody = (before.strikes ?? []).filter(
          (strike) => strike.string !== 5 && !['brush', 'drone', 'drop-thumb'].includes(strike.technique),
        );
        // a melody note within the first slot keeps it to itself, as it does any other
        const slotEnd = add(start, slotLength(m));
        const early = melody.find(
          ({ onset }) => compare(onset, start) >= 0 && compare(onset, end) < 0 && compare(onset, slotEnd) < 0,
        );
        const first = early?.onset ?? start;
        expect(onsets[0]).toEqual(first);
        // one note after another without a hole, the last one to the end of the unit or the next strike after it
        const sum = onsets.reduce<Rational>(
          (total, onset) => {
            const of = inside.find((strike) => equal(strike.onset, onset)) as Strike;
            return add(total, of.duration);
          },
          [0, 1],
        );
        const isFullAfter =
          (filled.strikes ?? []).some(({ onset }) => equal(onset, end)) || equal(end, endOf(filled, m));
        // where nothing could be put in or taken out, lengths stay what they were
        if (isFullAfter && filled !== before) expect(sum).toEqual(subtract(end, first));
        for (const { onset, string: on, fret } of melody) expect(noteAt(filled, onset, on)?.fret).toBe(fret);
        expect(told(fillUnit(filled, m, start, fill, 1))).toEqual(told(filled));
      }),
      { numRuns: 200 },
    );
  });
});

describe('tab from a melody', () => {
  // gDGBD, strings 5 to 1 as MIDI 67 50 55 59 62 (SCIENCE.md section 4)
  const setup = { tuning: [67, 50, 55, 59, 62] as const, capo: 0, spike: 0 };
  const melody = [62, 64, 60, 40].map((pitch, i) => ({
    onset: rational(i, 8),
    duration: rational(1, 8),
    pitch,
  }));

  test('takes the lowest fret of a long string and lists what is out of reach', () => {
    const { writing, outOfReach } = melodyOnNeck({ ...EMPTY, melody }, setup);
    expect(told(writing)).toEqual(['0/1+1/8 1:0 strike', '1/8+1/8 1:2 strike', '1/4+1/8 2:1 strike']);
    expect(outOfReach.map(({ pitch }) => pitch)).toEqual([40]);
  });
  test('counts frets from the capo', () => {
    const { writing } = melodyOnNeck({ ...EMPTY, melody: melody.slice(1, 2) }, { ...setup, capo: 2 });
    expect(told(writing)).toEqual(['1/8+1/8 1:0 strike']);
  });
  test('never puts two notes on one string at once', () => {
    const chord = [64, 63].map((pitch) => ({ onset: rational(0), duration: rational(1, 4), pitch }));
    const { writing } = melodyOnNeck({ ...EMPTY, melody: chord }, setup);
    expect(told(writing)).toEqual(['0/1+1/4 1:2 strike', '0/1+1/4 2:4 strike']);
  });
});

describe('hints', () => {
  const on = (technique: Strike['technique'], fret: number, onset: Rational = [1, 8]): Strike => ({
    ...{ onset, duration: [1, 8], string: 1, fret, technique },
  });
  const setup = { tuning: [67, 50, 55, 59, 62] as const, capo: 2, spike: 2 };
  const hints = (...strikes: Strike[]): string[] => measureHints({ ...EMPTY, strikes }, '2/4', setup);

  test('a hammer-on comes from a lower fret, a pull-off from a higher one', () => {
    const first = on('strike', 2, [0, 1]);
    expect(hints(first, on('hammer-on', 3))).toEqual([]);
    expect(hints(first, on('pull-off', 0))).toEqual([]);
    expect(hints(first, on('hammer-on', 1)).join()).toMatch(/hammer-on to fret 1/);
    expect(hints(first, on('pull-off', 4)).join()).toMatch(/pull-off to fret 4/);
  });
  test('a tie has its note before it, in this measure or in the one before', () => {
    expect(hints(on('tie', 2)).join()).toMatch(/no note/);
    expect(hints(on('tie', 2, [0, 1]))).toEqual([]);
    expect(hints(on('strike', 2, [0, 1]), on('tie', 2))).toEqual([]);
  });
  test('a stretch of more than five frets in a beat is said, open strings aside', () => {
    expect(hints(on('strike', 1, [0, 1]), on('strike', 7))).toHaveLength(1);
    expect(hints(on('strike', 1, [0, 1]), on('strike', 6))).toEqual([]);
    expect(hints(on('strike', 0, [0, 1]), on('strike', 12))).toEqual([]);
    expect(hints(on('strike', 1, [0, 1]), on('strike', 9, [1, 4]))).toEqual([]);
    expect(hints(on('strike', 1, [0, 1]), on('slide', 9))).toEqual([]);
  });
  test('a fret past the end of the neck is said, counted from the capo and from the spike', () => {
    // common practice: 22 frets, the short string from the fifth; under capo and spike 2 that leaves 20 and 15
    expect(hints(on('strike', 20))).toEqual([]);
    expect(hints(on('strike', 21)).join()).toMatch(/first string has no fret 21 .* ends at 20/);
    const short = (fret: number): Strike => ({ ...on('drone', fret), string: 5 });
    expect(hints(short(15))).toEqual([]);
    expect(hints(short(16)).join()).toMatch(/fifth string has no fret 16 .* ends at 15/);
  });
});
