import { describe, expect, it } from 'vitest';
import { shareMeasures } from '../../../src/lib/core/tune/draft-sharing';
import { emptyParts } from '../../../src/lib/core/tune/make-tune';
import { passageFromKey, passageKey, type Passage } from '../../../src/lib/core/tune/passage';
import { passageLabels, passageName } from '../../../src/lib/core/tune/passage-name';
import {
  figurePassages,
  firstLayer,
  partPassages,
  passageBeats,
  passageStretches,
  playedPlaces,
  seamPassages,
} from '../../../src/lib/core/tune/places';
import { sampleTune } from './sample';

const tune = sampleTune();
const layerId = firstLayer(tune).id;
const figureAt = (part: number, index: number): string => tune.parts[part]?.measures[index]?.figureId ?? '';

describe('the order in which a tune is played', () => {
  it('plays the parts as the form says', () => {
    const played = playedPlaces(tune, layerId).map(({ part, index }) => `${part}${index + 1}`);
    expect(played.join(' ')).toBe('A1 A2 A3 A4 A1 A2 A3 A4 B1 B2 B3 B4 B1 B2 B3 B4');
  });

  it('has 32 measures and 64 beats in a tune AABB of eight measures a part in 2/4 (common practice)', () => {
    const dance = sampleTune({ parts: emptyParts('AABB', [8, 8], '2/4') });
    const whole: Passage = { kind: 'tune', tuneId: dance.id, layerId: firstLayer(dance).id };
    expect(passageStretches(dance, whole)).toHaveLength(32);
    expect(passageBeats(dance, whole)).toBe(64);
  });

  it('finds each seam once, the turns back to a part and on to the next among them', () => {
    expect(seamPassages(tune, layerId)).toHaveLength(3 + 1 + 1 + 3 + 1);
    expect(figurePassages(tune, layerId)).toHaveLength(8);
    expect(partPassages(tune, layerId).map(({ part }) => part)).toEqual(['A', 'B']);
  });

  it('shares a seam wherever the same two figures meet', () => {
    const parts = emptyParts('AB', [4, 4], '2/4');
    const once = shareMeasures(parts, { part: 'A', index: 0 }, { part: 'B', index: 0 }) ?? [];
    const twice = shareMeasures(once, { part: 'A', index: 1 }, { part: 'B', index: 1 }) ?? [];
    const shared = sampleTune({ form: 'AB', parts: twice });
    expect(seamPassages(shared, firstLayer(shared).id)).toHaveLength(6);
  });
});

describe('what a pass plays', () => {
  it('plays the last beat of one measure and the first of the next for a seam', () => {
    const seam: Passage = {
      kind: 'seam',
      tuneId: tune.id,
      fromFigureId: figureAt(0, 1),
      toFigureId: figureAt(0, 2),
    };
    const stretches = passageStretches(tune, seam);
    expect(stretches.map(({ index, fromBeat, toBeat }) => [index, fromBeat, toBeat])).toEqual([
      [1, 1, 2],
      [2, 0, 1],
    ]);
    expect(passageName(tune, seam)).toBe('Seam 2–3, part A');
  });

  it('plays the measures of a phrase, ends included', () => {
    const measures = tune.parts[1]?.measures ?? [];
    const phrase: Passage = {
      kind: 'phrase',
      tuneId: tune.id,
      layerId,
      fromMeasureId: measures[1]?.id ?? '',
      toMeasureId: measures[3]?.id ?? '',
    };
    expect(passageLabels(tune, phrase)).toEqual(['B2', 'B3', 'B4']);
    expect(passageName(tune, phrase)).toBe('Measures 2–4, part B');
  });

  it('plays nothing for a passage that is no longer in the tune', () => {
    const gone: Passage = { kind: 'figure', tuneId: tune.id, figureId: 'gone' };
    expect(passageStretches(tune, gone)).toEqual([]);
    expect(passageBeats(tune, gone)).toBe(0);
    expect(passageName(tune, gone)).toBe('A passage no longer in the tune');
  });

  it('names the turn back to the beginning of a part', () => {
    const turn: Passage = {
      kind: 'seam',
      tuneId: tune.id,
      fromFigureId: figureAt(0, 3),
      toFigureId: figureAt(0, 0),
    };
    expect(passageName(tune, turn)).toBe('Seam 4–1, part A again');
    const on: Passage = { ...turn, toFigureId: figureAt(1, 0) };
    expect(passageName(tune, on)).toBe('Seam A4–B1');
  });
});

describe('passage keys', () => {
  it('come back as the passage they were made of', () => {
    const passages: Passage[] = [
      ...figurePassages(tune, layerId),
      ...seamPassages(tune, layerId),
      ...partPassages(tune, layerId),
      { kind: 'tune', tuneId: tune.id, layerId },
      { kind: 'phrase', tuneId: tune.id, layerId, fromMeasureId: 'm1', toMeasureId: 'm2' },
    ];
    for (const passage of passages) expect(passageFromKey(passageKey(passage))).toEqual(passage);
    expect(new Set(passages.map(passageKey)).size).toBe(passages.length);
  });

  it.each([
    '',
    'figure',
    'figure:',
    'figure:a',
    'figure:a:b:c',
    'seam:a:b',
    'phrase:a:b:c',
    'whole:a:b',
    'a:b:c:d:e:f',
  ])('refuses %j', (key) => {
    expect(passageFromKey(key)).toBeNull();
  });
});
