import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import { readBackup } from '$lib/core/book/backup';
import { hearingSegments, type Hearing } from '$lib/core/pluck/hearing';
import { tabMissing } from '$lib/core/pluck/tab-missing';
import { BanjoVoice } from '$lib/core/pluck/banjo-voice';
import { renderSegments, SoundRenderer } from '$lib/core/rhythm/sound-render';
import { checkSegment } from '$lib/core/rhythm/segment';
import type { Passage } from '$lib/core/tune/passage';
import { partPlaces, seamPassages } from '$lib/core/tune/places';
import type { Strike } from '$lib/core/tune/strike';
import type { Tune } from '$lib/core/tune/tune';
import { peak } from './sound-measures';

const reading = readBackup(readFileSync('sample-data/demo-book.json', 'utf8'));
if (!reading.ok) throw new Error('The demo book cannot be read');
const titled = (title: string): Tune => {
  const tune = reading.book.tunes.find((one) => one.title === title);
  if (!tune) throw new Error(`The demo book has no ${title}`);
  return tune;
};

const clark = titled('Old Joe Clark');
const crooked = titled('Crooked Hen on the Mill Stair');
const layerOf = (tune: Tune) => tune.layers[0]!.id;
const whole = (tune: Tune): Passage => ({ kind: 'tune', tuneId: tune.id, layerId: layerOf(tune) });
const measuresOf = (tune: Tune, part: string) => partPlaces(tune, layerOf(tune), part);
const phrase = (tune: Tune, part: string, from: number, to: number): Passage => ({
  kind: 'phrase',
  tuneId: tune.id,
  layerId: layerOf(tune),
  fromMeasureId: measuresOf(tune, part)[from - 1]!.measure.id,
  toMeasureId: measuresOf(tune, part)[to - 1]!.measure.id,
});

const hear = (tune: Tune, passage: Passage, more: Partial<Hearing> = {}) =>
  hearingSegments({
    tune,
    passage,
    tempo: 80,
    sounded: 'both',
    pattern: 'beat',
    countIn: 1,
    passes: 1,
    answers: false,
    ...more,
  });

/** Beats of the cues, as numbers. */
const beatsOf = (segment: { plucks?: readonly { at: readonly [number, number] }[] } | undefined) =>
  (segment?.plucks ?? []).map(({ at }) => at[0] / at[1]);

describe('a passage that is heard', () => {
  it('is counted in and played as often as asked, back to back', () => {
    const segments = hear(clark, phrase(clark, 'A', 2, 3), { passes: 2, countIn: 2 });
    expect(segments.map(({ id, kind, measures }) => [id, kind, measures])).toEqual([
      ['count-in', 'count-in', [2, 2]],
      ['pass-1', 'pass', [2, 2]],
      ['pass-2', 'pass', [2, 2]],
    ]);
    segments.forEach(checkSegment);
    const [aloud, pass] = hear(clark, phrase(clark, 'A', 2, 3), { spokenCount: true });
    expect([aloud?.spoken, pass?.spoken]).toEqual([true, undefined]);
    expect(segments[0]?.spoken).toBeUndefined();
    expect(segments[0]?.plucks).toBeUndefined();
    expect(segments[2]?.plucks).toEqual(segments[1]?.plucks);
  });

  // sample-data/tunes/old-joe-clark.txt, A1: D|-0---2---3---2---| g|-------0-------0-|, capo and spike at 2
  it('has each strike of the tab at its place and pitch', () => {
    const [pass] = hear(clark, phrase(clark, 'A', 1, 1), { countIn: 0 });
    expect(
      pass?.plucks?.map(({ at, string, pitch, touch }) => [at[0] / at[1], string, pitch, touch]),
    ).toEqual([
      [0, 1, 64, 'nail'],
      [0.5, 1, 66, 'nail'],
      [0.75, 5, 69, 'thumb'],
      [1, 1, 67, 'nail'],
      [1.5, 1, 66, 'nail'],
      [1.75, 5, 69, 'thumb'],
    ]);
  });

  it('is the melody, the drone, or both', () => {
    const cues = (sounded: Hearing['sounded']) =>
      hear(clark, whole(clark), { sounded, countIn: 0 })[0]?.plucks ?? [];
    const [both, melody, drone] = [cues('both'), cues('melody'), cues('drone')];
    expect(drone.length).toBeGreaterThan(20);
    expect(drone.every(({ string }) => string === 5)).toBe(true);
    expect(melody.every(({ string }) => string !== 5)).toBe(true);
    expect(both).toHaveLength(melody.length + drone.length);
  });

  it('plays the whole form, with the parts marked for the click', () => {
    const [, pass] = hear(clark, whole(clark));
    expect(pass?.measures).toHaveLength(32);
    expect(pass?.parts).toEqual([0, 8, 16, 24]);
    expect(Math.max(...beatsOf(pass))).toBeGreaterThan(62);
  });

  it('keeps the length of a crooked measure', () => {
    const [, pass] = hear(crooked, {
      kind: 'part',
      tuneId: crooked.id,
      layerId: layerOf(crooked),
      part: 'B',
    });
    expect(pass?.measures).toEqual([2, 2, 2, 2, 2, 2, 2, 3, 2]);
    expect(Math.max(...beatsOf(pass))).toBeLessThan(19);
    const ninth = measuresOf(crooked, 'B')[8]!.figure.strikes!;
    const first = 17 + (ninth[0]!.onset[0] / ninth[0]!.onset[1]) * 4;
    expect(beatsOf(pass)).toContain(first);
  });

  it('counts a seam in up to its place, and plays its two beats only', () => {
    const seam = seamPassages(clark, layerOf(clark))[0]!;
    const [countIn, pass] = hear(clark, seam);
    expect(countIn?.measures).toEqual([2, 1]);
    expect(pass?.measures).toEqual([1, 1]);
    expect(pass?.pickup).toBe(true);
    expect(pass?.plucks?.map(({ pitch, at }) => [pitch, at[0] / at[1]]).slice(0, 3)).toEqual([
      [67, 0],
      [66, 0.5],
      [69, 0.75],
    ]);
  });
});

describe('a pickup', () => {
  // D3 on the fourth string in gDGCD: half a beat before the first measure
  it('sounds in the last beats of the count-in', () => {
    const [countIn] = hear(crooked, whole(crooked), { countIn: 2 });
    expect(countIn?.plucks?.map(({ at, string, pitch }) => [at[0] / at[1], string, pitch])).toEqual([
      [3.5, 4, 53],
    ]);
  });

  it('is all that there is before the first pass when nothing is counted in', () => {
    const [pickup, pass] = hear(crooked, whole(crooked), { countIn: 0 });
    expect(pickup?.measures).toEqual([0.5]);
    expect(pickup?.pattern).toBe('beat');
    expect(hear(crooked, whole(crooked), { countIn: 0, pattern: 'silent' })[0]?.pattern).toBe('silent');
    expect(beatsOf(pickup)).toEqual([0]);
    expect(pass?.id).toBe('pass-1');
  });

  it('leads into the first part and into nothing else', () => {
    const first = hear(crooked, phrase(crooked, 'A', 1, 2));
    expect(beatsOf(first[0])).toEqual([1.5]);
    for (const passage of [
      phrase(crooked, 'A', 2, 3),
      phrase(crooked, 'B', 1, 2),
      { kind: 'figure', tuneId: crooked.id, figureId: measuresOf(crooked, 'A')[0]!.figure.id } as const,
    ])
      expect(hear(crooked, passage)[0]?.plucks).toBeUndefined();
  });
});

describe('call and answer', () => {
  const segments = hear(clark, phrase(clark, 'A', 1, 2), { answers: true, passes: 2, tempo: 240 });

  it('leaves the same space after each pass, with the click and without the string', () => {
    expect(segments.map(({ id }) => id)).toEqual(['count-in', 'pass-1', 'answer-1', 'pass-2', 'answer-2']);
    const [, call, answer] = segments;
    expect(answer?.measures).toEqual(call?.measures);
    expect(answer?.tempo).toBe(call?.tempo);
    expect(answer?.pattern).toBe('beat');
    expect(answer?.plucks).toBeUndefined();
    segments.forEach(checkSegment);
  });

  it('lays a hand on every string 30 ms before the space', () => {
    const damps = segments[1]?.plucks?.filter(({ touch }) => touch === 'damp') ?? [];
    expect(damps.map(({ string }) => string).sort()).toEqual([1, 2, 3, 4, 5]);
    for (const { at } of damps) {
      const before = ((4 - at[0] / at[1]) * 60) / 240;
      expect(before).toBeGreaterThan(0.0299);
      expect(before).toBeLessThan(0.0315);
    }
  });
});

describe('an edit while a passage plays', () => {
  it('is in the passes that have not started, which follow without a count-in', () => {
    const passage = phrase(clark, 'A', 1, 1);
    const strike: Strike = { onset: [0, 1], duration: [1, 2], string: 3, fret: 4, technique: 'strike' };
    const figureId = measuresOf(clark, 'A')[0]!.figure.id;
    const edited: Tune = {
      ...clark,
      figures: clark.figures.map((figure) =>
        figure.id === figureId ? { ...figure, strikes: [strike] } : figure,
      ),
    };
    const before = hear(clark, passage, { passes: 2 });
    const after = hear(edited, passage, { passes: 2, firstPass: 2 });
    expect(after.map(({ id }) => id)).toEqual(['pass-2', 'pass-3']);
    expect(after[0]?.plucks?.map(({ pitch }) => pitch)).toEqual([61]);
    expect(before[1]?.plucks).toHaveLength(6);
  });
});

describe('what cannot be heard', () => {
  it('is a passage without tab: silent but for the click, and said plainly', () => {
    const hen = titled('Cluck Old Hen');
    const [, pass] = hear(hen, whole(hen));
    expect(pass?.plucks).toEqual([]);
    expect(tabMissing(hen, whole(hen))).toMatchObject({
      isAll: true,
      sentence: 'No tab yet: only the click.',
    });
    expect(tabMissing(clark, whole(clark))).toBeNull();
  });

  it('names the measures that lack tab when others have it', () => {
    const without = (...places: number[]): Tune => {
      const ids = places.map((place) => measuresOf(clark, 'B')[place - 1]!.figure.id);
      const figures = clark.figures.map((one) => (ids.includes(one.id) ? { ...one, strikes: null } : one));
      return { ...clark, figures };
    };
    const part: Passage = { kind: 'part', tuneId: clark.id, layerId: layerOf(clark), part: 'B' };
    expect(tabMissing(without(4), part)?.sentence).toBe('B4 has no tab yet: only the click there.');
    const two = without(4, 7);
    expect(tabMissing(two, part)).toEqual({
      labels: ['B4', 'B7'],
      isAll: false,
      sentence: 'B4 and B7 have no tab yet: only the click there.',
    });
    expect(Math.max(...beatsOf(hear(two, part)[1]).filter((beat) => beat < 8))).toBeLessThan(6);
  });

  it('is no melody without fingering: it sounds, its pickup too', () => {
    const melody = [{ onset: [0, 1], duration: [1, 4], pitch: 62 }] as const;
    const tune: Tune = {
      ...clark,
      pickup: { beats: 1, strikes: null, melody },
      figures: clark.figures.map((one) => ({ ...one, strikes: null, melody })),
    };
    expect(tabMissing(tune, whole(tune))).toBeNull();
    const [countIn, pass] = hear(tune, whole(tune));
    expect(beatsOf(countIn)).toEqual([1]);
    expect(pass?.plucks).toHaveLength(pass!.measures.length);
    expect(new Set(pass?.plucks?.map(({ pitch, string }) => `${pitch} ${string}`)).size).toBe(1);
  });

  it('is a passage that is no longer in the tune', () => {
    expect(hear(clark, { kind: 'figure', tuneId: clark.id, figureId: 'gone' })).toEqual([]);
  });

  it.each([0, -5, 29, 241, 1000, NaN, Infinity])('is a tempo of %d', (tempo) => {
    expect(() => hear(clark, whole(clark), { tempo })).toThrow(
      new RangeError(`A passage can be heard at 30 to 240 beats per minute: saw ${tempo}`),
    );
  });

  it('is no pass, or three measures of count-in', () => {
    expect(() => hear(clark, whole(clark), { passes: 0 })).toThrow(RangeError);
    expect(() => hear(clark, whole(clark), { passes: NaN })).toThrow(RangeError);
    expect(() => hear(clark, whole(clark), { countIn: 3 })).toThrow(RangeError);
  });
});

/** Every tempo at which a passage can be heard gives segments that the engine takes. */
it.each([30, 37.3, 111, 240])('all of every demo tune can be played at %d', (tempo) => {
  for (const tune of reading.book.tunes) {
    for (const segment of hear(tune, whole(tune), { tempo, answers: true })) checkSegment(segment);
    for (const seam of seamPassages(tune, layerOf(tune))) hear(tune, seam, { tempo }).forEach(checkSegment);
  }
});

it('stays 3 dB under full scale in every demo tune, brushes and all', () => {
  for (const tune of reading.book.tunes) {
    const segments = hear(tune, whole(tune), { countIn: 0, pattern: 'silent', tempo: 120 });
    const samples = renderSegments(segments, new SoundRenderer(48_000, new BanjoVoice(48_000)), 48_000);
    expect(peak(samples), tune.title).toBeLessThan(10 ** (-3 / 20));
    if (!tabMissing(tune, whole(tune))) expect(peak(samples)).toBeGreaterThan(0.3);
  }
});
