import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTypedTab } from '../../../src/lib/core/notation/typed-tab';
import { writeTypedTab } from '../../../src/lib/core/notation/write-typed-tab';
import { beatsToWholeNotes, METERS, meterShape, type Meter } from '../../../src/lib/core/rhythm/meter';
import {
  add,
  compare,
  multiply,
  rational,
  subtract,
  type Rational,
} from '../../../src/lib/core/rhythm/rational';
import { makeTune, type MeasureDraft, type TuneDraft } from '../../../src/lib/core/tune/make-tune';
import { findSharedMeasures } from '../../../src/lib/core/tune/shared-measures';
import { compareStrikes, type Strike, type Technique } from '../../../src/lib/core/tune/strike';
import type { MeasureLabel, Pickup } from '../../../src/lib/core/tune/tune';
import { COMMON_TUNINGS, type StringNumber } from '../../../src/lib/core/tune/tuning';

function tuneOf(draft: TuneDraft) {
  let ids = 0;
  return makeTune(draft, () => `id-${(ids += 1)}`, { at: 0, offsetMin: 0 });
}

function written(draft: TuneDraft): string {
  const tune = tuneOf(draft);
  const result = writeTypedTab(tune, tune.layers[0]?.id ?? '');
  if ('refusal' in result) throw new Error(result.refusal);
  return result.text;
}

const PLAIN: TuneDraft = {
  ...{ title: 'The Wet Ladder', key: 'G', meter: '2/4', tuning: [67, 50, 55, 59, 62], capo: 0, spike: 0 },
  ...{ goalTempo: 100, form: 'A', parts: [], pickup: null },
};

const strike = (
  onset: Rational,
  duration: Rational,
  string: StringNumber,
  fret: number,
  technique: Technique,
) => ({
  ...{ onset, duration, string, fret, technique },
});
const measure = (change: Partial<MeasureDraft>): MeasureDraft => ({
  ...{ beats: 2, strikes: [], sameAs: null },
  ...change,
});

describe('what is written', () => {
  it('has a header, parts by name, the count under five lines, chords and note values over them, words under them', () => {
    const first: Strike[] = [
      strike([0, 1], [1, 8], 1, 0, 'strike'),
      strike([1, 8], [1, 8], 1, 2, 'hammer-on'),
      strike([1, 4], [1, 8], 1, 0, 'strike'),
      { ...strike([3, 8], [1, 8], 3, 0, 'strike'), weight: 'ghost' },
    ];
    const second: Strike[] = [
      strike([0, 1], [1, 12], 1, 0, 'strike'),
      strike([1, 12], [1, 12], 1, 2, 'hammer-on'),
      strike([1, 6], [1, 12], 1, 0, 'pull-off'),
      { ...strike([1, 4], [1, 8], 2, 10, 'brush'), weight: 'accent' },
      strike([3, 8], [1, 16], 5, 0, 'drone'),
    ];
    const labels: MeasureLabel[] = [
      { onset: [0, 1], kind: 'chord', text: 'G' },
      { onset: [1, 4], kind: 'word', text: 'come home' },
    ];
    const last = [strike([0, 1], [1, 2], 4, 0, 'brush'), strike([0, 1], [1, 2], 5, 0, 'drone')];
    const a = [{ strikes: first, labels }, { strikes: second }, { strikes: null }, { beats: 2.5 }].map(
      measure,
    );
    const parts = [
      { name: 'A', measures: a },
      { name: 'B', measures: [measure({ strikes: last })] },
    ];
    expect(written({ ...PLAIN, capo: 2, spike: 3, form: 'AAB', parts })).toBe(`Title: The Wet Ladder
Tuning: gDGBD
Capo: 2
Spike: 3
Key: G
Meter: 2/4
Tempo: 100
Form: AAB
Marks: h hammer-on, p pull-off, t thumb, br brush, > accent, ( ) ghost
No tab: A3 (left blank)

A part
    G
                      e3   e3    e3   e       s
D|:-0--h2---0-------|-0---h2----p0--------------------|
B|:-----------------|---------------->10--------------|
G|:------------(0)--|-----------------0---------------|
D|:-----------------|-----------------0---------------|
g|:-----------------|-------------------------0-------|
    1 e & a 2 e & a   1   e   &   a   2   e   &   a
            come_home

D|- - - - - - - - -|---------------------:|
B|- - - - - - - - -|---------------------:|
G|- - - - - - - - -|---------------------:|
D|- - - - - - - - -|---------------------:|
g|- - - - - - - - -|---------------------:|
   1 e & a 2 e & a   1 e & a 2 e & a 3 e

B part
D|-------------------||
B|-------------------||
G|-------------------||
D|-br0---------------||
g|--t0---------------||
     1 e & a 2 e & a
`);
  });

  it('keeps to 72 columns where a measure fits them, 40 measures long', () => {
    const beat = strike([0, 1], [1, 2], 1, 0, 'strike');
    const measures = Array.from({ length: 40 }, (_, index) =>
      measure({ strikes: [{ ...beat, fret: index % 9 }] }),
    );
    const text = written({ ...PLAIN, parts: [{ name: 'A', measures }] });
    expect(Math.max(...text.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(72);
    expect(readTypedTab(text, { meter: '4/4' }).parts[0]?.measures).toHaveLength(40);
  });

  it('is refused in a sentence where there is no tab', () => {
    const melody = [{ onset: [0, 1], duration: [1, 4], pitch: 62 }] as const;
    const refusal = (change: Partial<MeasureDraft>) => {
      const tune = tuneOf({
        ...PLAIN,
        parts: [{ name: 'A', measures: [measure({ strikes: null, ...change })] }],
      });
      const result = writeTypedTab(tune, tune.layers[0]?.id ?? '');
      return 'refusal' in result ? result.refusal : result.text;
    };
    expect(refusal({})).toMatch(/^No measure of this tune has tab yet\..*\.$/);
    expect(refusal({ melody })).toMatch(/^This melody has no tab to write yet\..*\.$/);
  });

  it('leaves blank what no columns can tell, and names it', () => {
    const far = strike([1, 97], [1, 97], 1, 0, 'strike');
    const measures = [measure({ strikes: [far] }), measure({})];
    expect(written({ ...PLAIN, parts: [{ name: 'A', measures }] })).toContain('No tab: A1 (left blank)');
  });
});

/** Everything that the format carries, in every meter: see `writeTypedTab`. */
describe('what was written reads back', () => {
  const frets = fc.oneof(
    { weight: 4, arbitrary: fc.integer({ min: 0, max: 9 }) },
    fc.integer({ min: 10, max: 22 }),
  );
  const weights = fc.constantFrom(undefined, undefined, undefined, 'ghost' as const, 'accent' as const);
  const onLong = fc.constantFrom<Technique>(
    ...(['strike', 'strike', 'brush', 'drop-thumb', 'hammer-on', 'pull-off', 'slide', 'tie'] as const),
  );
  const onShort = fc.constantFrom<Technique>('strike', 'drone', 'drone', 'hammer-on', 'tie');
  const sound = fc.tuple(frets, weights).map(([fret, weight]) => ({ fret, ...(weight && { weight }) }));
  const chord = fc
    .record({
      long: fc.uniqueArray(fc.constantFrom<StringNumber>(1, 2, 3, 4), { minLength: 0, maxLength: 2 }),
      technique: fc.tuple(
        onLong,
        onLong.filter((technique) => technique !== 'brush'),
      ),
      sounds: fc.tuple(sound, sound, sound),
      short: fc.option(onShort, { freq: 3 }),
    })
    .map(({ long, technique, sounds, short }) => {
      const strings = long.toSorted((a, b) => a - b);
      const struck = strings.map((string, index) => ({
        ...{ string, technique: technique[index] ?? ('strike' as const) },
        ...(sounds[index] ?? { fret: 0 }),
      }));
      return short ? [...struck, { string: 5 as const, technique: short, ...sounds[2] }] : struck;
    });
  /** Places of one beat: slots, halves of them, or a triplet. */
  const places = (meter: Meter): fc.Arbitrary<Rational[]> => {
    const even = meterShape(meter).division === 3 ? [1, 3, 6] : [1, 2, 2, 4, 4, 4, 8, 3, 6, 5];
    return fc
      .constantFrom(...even)
      .chain((parts) => fc.subarray(Array.from({ length: parts }, (_, index) => rational(index, parts))));
  };
  const strikesOf = (meter: Meter, beats: number): fc.Arbitrary<Strike[]> =>
    fc.array(places(meter), { minLength: Math.ceil(beats), maxLength: Math.ceil(beats) }).chain((perBeat) => {
      const end = beatsToWholeNotes(meter, beats);
      const onsets = perBeat
        .flatMap((list, beat) =>
          list.map((place) => multiply(add(rational(beat), place), meterShape(meter).beat)),
        )
        .filter((onset) => compare(onset, end) < 0);
      return fc.array(chord, { minLength: onsets.length, maxLength: onsets.length }).map((chords) => {
        const sounding = onsets.filter((_, index) => (chords[index] ?? []).length > 0);
        return onsets
          .flatMap((onset, index) => {
            const next = sounding[sounding.indexOf(onset) + 1] ?? end;
            return (chords[index] ?? []).map((one) => ({ onset, duration: subtract(next, onset), ...one }));
          })
          .sort(compareStrikes);
      });
    });
  const labelsOf = (strikes: readonly Strike[]): fc.Arbitrary<MeasureLabel[]> => {
    const onsets = [...new Map(strikes.map(({ onset }) => [onset.join('/'), onset])).values()];
    const kinds = [
      { kind: 'chord' as const, text: 'G' },
      { kind: 'chord' as const, text: 'Am7' },
      { kind: 'word' as const, text: 'water' },
      { kind: 'word' as const, text: 'shady grove' },
    ];
    return fc
      .subarray(onsets, { maxLength: Math.min(4, onsets.length) })
      .chain((some) =>
        fc.tuple(...some.map((onset) => fc.constantFrom(...kinds).map((label) => ({ onset, ...label })))),
      );
  };
  const measureOf = (meter: Meter): fc.Arbitrary<MeasureDraft> => {
    const whole = meterShape(meter).beats;
    const lengths = fc.oneof(
      { weight: 4, arbitrary: fc.constant(whole) },
      fc.integer({ min: 1, max: 11 }).map((n) => n / 2),
    );
    return lengths.chain((beats) =>
      fc.option(strikesOf(meter, beats), { freq: 9 }).chain((strikes) =>
        labelsOf(strikes ?? []).map((labels) => ({
          ...{ beats, strikes, sameAs: null },
          ...(labels.length > 0 && { labels }),
        })),
      ),
    );
  };
  const pickupOf = (meter: Meter): fc.Arbitrary<Pickup | null> =>
    fc.option(
      fc
        .integer({ min: 1, max: meterShape(meter).beats * 2 - 1 })
        .chain((halves) => strikesOf(meter, halves / 2).map((strikes) => ({ beats: halves / 2, strikes }))),
    );
  const draft: fc.Arbitrary<TuneDraft> = fc.constantFrom(...METERS).chain((meter) =>
    fc
      .record({
        title: fc.constantFrom('The Wet Ladder', 'G', 'Key of Rain', 'Part Way, Capo 2'),
        key: fc.constantFrom('', 'G', 'A modal', 'E minor'),
        tuning: fc.constantFrom(...COMMON_TUNINGS.map(({ tuning }) => tuning)),
        capo: fc.integer({ min: 0, max: 5 }),
        spike: fc.integer({ min: 0, max: 5 }),
        goalTempo: fc.integer({ min: 40, max: 180 }),
        lists: fc.array(fc.array(measureOf(meter), { minLength: 1, maxLength: 7 }), {
          minLength: 1,
          maxLength: 3,
        }),
        form: fc.constantFrom('A', 'AA', 'AAB', 'AABBCC', 'ABAC'),
        pickup: pickupOf(meter),
      })
      .map(({ lists, form, ...rest }) => {
        const parts = lists.map((measures, index) => ({ name: 'ABC'.charAt(index), measures }));
        const names = new Set(parts.map(({ name }) => name));
        const kept = [...form].filter((letter) => names.has(letter)).join('');
        const missing = parts.filter(({ name }) => !kept.includes(name)).map(({ name }) => name);
        return { ...rest, meter, parts, form: kept + missing.join('') };
      }),
  );

  it('as the same tune', () => {
    fc.assert(
      fc.property(draft, (wanted) => {
        fc.pre(wanted.parts.some(({ measures }) => measures.some(({ strikes }) => strikes !== null)));
        const { title, key, meter, tuning, capo, spike, goalTempo, form, parts, pickup } = wanted;
        const isRaised = capo > 0 || spike > 0;
        const reading = readTypedTab(written(wanted), { meter: meter === '2/4' ? '6/8' : '2/4' });
        expect(reading.warnings).toEqual([]);
        expect(reading).toEqual({
          ...{ title, key: key === '' ? null : key, meter, tuning, form, pickup, warnings: [] },
          ...(isRaised ? { capo, spike } : { capo: null }),
          tempo: goalTempo,
          parts: findSharedMeasures(parts),
        });
      }),
      { numRuns: 120 },
    );
  }, 30_000);

  it('with its own note values', () => {
    const values: Rational[] = [
      [1, 32],
      [1, 16],
      [3, 32],
      [1, 8],
      [3, 16],
      [7, 32],
      [1, 4],
      [1, 12],
      [1, 24],
    ];
    const lasting = fc.tuple(
      strikesOf('4/4', 4),
      fc.array(fc.constantFrom(...values), { minLength: 64, maxLength: 64 }),
    );
    fc.assert(
      fc.property(lasting, ([found, lengths]) => {
        const onsets = [...new Set(found.map(({ onset }) => onset.join('/')))];
        const strikes = found.map((one): Strike => {
          const left = subtract([1, 1], one.onset);
          const length = lengths[onsets.indexOf(one.onset.join('/'))] ?? [1, 16];
          return { ...one, duration: compare(length, left) > 0 ? [1, 32] : length };
        });
        fc.pre(strikes.every(({ onset, duration }) => compare(add(onset, duration), [1, 1]) <= 0));
        const measures = [measure({ beats: 4, strikes })];
        const text = written({ ...PLAIN, meter: '4/4', parts: [{ name: 'A', measures }] });
        expect(readTypedTab(text, { meter: '2/4' }).parts[0]?.measures[0]?.strikes).toEqual(strikes);
      }),
      { numRuns: 60 },
    );
  }, 30_000);
});
