import fc from 'fast-check';
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { tuneSchema } from '../../../src/lib/core/book/tune-schema';
import { changeMeasure, type MeasureChange } from '../../../src/lib/core/tune/change-measure';
import { contentKey } from '../../../src/lib/core/tune/shared-measures';
import { boardMeasures, shownByLayer } from '../../../src/lib/core/tune/layer-figures';
import {
  addLayer,
  changedMeasures,
  figuresNewIn,
  nextLayerName,
  putBackLayer,
  removeLastLayer,
  renameLayer,
} from '../../../src/lib/core/tune/layers';
import type { Technique } from '../../../src/lib/core/tune/strike';
import type { Id, Tune } from '../../../src/lib/core/tune/tune';
import { NOW, sampleTune } from './sample';

const LATER = { ...NOW, at: NOW.at + 1000 };

function freshIds(): () => Id {
  let count = 0;
  return () => `0193c222-0000-7000-8000-${String((count += 1)).padStart(12, '0')}`;
}

/** A measure of 2/4 with one note, told apart by its fret. */
function note(fret: number, technique: Technique = 'strike'): MeasureChange['content'] {
  return { beats: 2, strikes: [{ onset: [0, 1], duration: [1, 4], string: 1, fret, technique }] };
}

function tabbedTune(frets: readonly number[]): Tune {
  return sampleTune({
    form: 'A',
    parts: [
      {
        name: 'A',
        measures: frets.map((fret, index) => {
          const same = frets.indexOf(fret);
          return { ...note(fret), sameAs: same < index ? { part: 'A', index: same } : null };
        }),
      },
    ],
  });
}

const layerAt = (tune: Tune, depth: number): Id => tune.layers[depth]?.id ?? '';
const measureAt = (tune: Tune, index: number): Id => boardMeasures(tune)[index]?.id ?? '';
/** What every measure sounds in a layer. */
const heard = (tune: Tune, depth: number): (string | null)[] =>
  [...(shownByLayer(tune)[depth]?.values() ?? [])].map((figureId) => {
    const figure = tune.figures.find(({ id }) => id === figureId);
    return figure ? contentKey(figure) : null;
  });
const shownIds = (tune: Tune, depth: number): Id[] => [...(shownByLayer(tune)[depth]?.values() ?? [])];

function write(
  tune: Tune,
  depth: number,
  index: number,
  content: MeasureChange['content'],
  scope: MeasureChange['scope'] = 'shared',
  nextId = freshIds(),
): Tune {
  const change = { layerId: layerAt(tune, depth), measureId: measureAt(tune, index), content, scope };
  return changeMeasure(tune, change, nextId, LATER);
}

describe('writing a measure anew', () => {
  it('changes every measure that shares the figure, which keeps its id', () => {
    const tune = tabbedTune([0, 2, 0, 3]);
    const next = write(tune, 0, 2, note(5));
    expect(shownIds(next, 0)).toEqual(shownIds(tune, 0));
    expect(heard(next, 0)).toEqual([5, 2, 5, 3].map((fret) => contentKey(note(fret))));
  });

  it('gives one measure alone a figure of its own and leaves the history with the others', () => {
    const tune = tabbedTune([0, 2, 0, 3]);
    const next = write(tune, 0, 0, note(5), 'this');
    expect(heard(next, 0)).toEqual([5, 2, 0, 3].map((fret) => contentKey(note(fret))));
    expect(shownIds(next, 0).slice(1)).toEqual(shownIds(tune, 0).slice(1));
    expect(shownIds(tune, 0)).not.toContain(shownIds(next, 0)[0]);
  });

  it('shares the figure that already sounds so', () => {
    const tune = tabbedTune([0, 2, 0, 3]);
    const next = write(tune, 0, 3, note(2));
    expect(shownIds(next, 0)[3]).toBe(shownIds(tune, 0)[1]);
    expect(next.figures).toBe(tune.figures);
  });

  it('brings a figure back, with its id, when its content is written again', () => {
    const tune = tabbedTune([0, 2, 0, 3]);
    const away = write(tune, 0, 3, note(2), 'this');
    expect(shownIds(write(away, 0, 3, note(3), 'this'), 0)).toEqual(shownIds(tune, 0));
  });

  it('is the same tune when nothing is written that was not there', () => {
    const tune = tabbedTune([0, 2]);
    expect(write(tune, 0, 1, note(2))).toBe(tune);
  });

  it('makes a new figure in a later layer, and leaves the plain one with its passes', () => {
    const tune = addLayer(tabbedTune([0, 2, 0, 3]), 'slides', freshIds(), LATER);
    const next = write(tune, 1, 0, note(4, 'slide'), 'shared', () => '0193c333-0000-7000-8000-000000000000');
    expect(heard(next, 0)).toEqual(heard(tune, 0));
    expect(changedMeasures(next, layerAt(next, 1))).toEqual([measureAt(next, 0), measureAt(next, 2)]);
    expect(figuresNewIn(next, layerAt(next, 1))).toEqual(['0193c333-0000-7000-8000-000000000000']);
  });

  it('keeps what a layer above shares with a figure that is written anew below it', () => {
    const layered = addLayer(tabbedTune([0, 2]), 'slides', freshIds(), LATER);
    const shared = write(layered, 1, 1, note(0));
    expect(shownIds(shared, 1)).toEqual([shownIds(shared, 0)[0], shownIds(shared, 0)[0]]);
    const next = write(shared, 0, 0, note(7));
    expect(heard(next, 1)).toEqual([note(7), note(0)].map(contentKey));
    expect(shownIds(next, 0)).toEqual(shownIds(shared, 0));
  });

  it('refuses a layer and a measure that the tune does not have', () => {
    const tune = tabbedTune([0]);
    const change = { layerId: layerAt(tune, 0), measureId: 'm', content: note(1), scope: 'this' as const };
    expect(() => changeMeasure(tune, change, freshIds(), NOW)).toThrow('has no measure m on its board');
    expect(() => changeMeasure(tune, { ...change, layerId: 'l' }, freshIds(), NOW)).toThrow('has no layer l');
  });
});

describe('layers', () => {
  it('begin as the one below, and are taken off and put back whole', () => {
    const tune = addLayer(tabbedTune([0, 2]), 'slides', freshIds(), LATER);
    expect(changedMeasures(tune, layerAt(tune, 1))).toEqual([]);
    const changed = write(tune, 1, 0, note(4, 'slide'), 'this', () => '0193c333-0000-7000-8000-000000000000');
    const without = removeLastLayer(changed, LATER);
    expect(without.layers).toHaveLength(1);
    expect(v.safeParse(tuneSchema, without).success).toBe(true);
    const back = putBackLayer(without, layerAt(changed, 1), LATER);
    expect(back).toEqual(changed);
    expect(() => removeLastLayer(tabbedTune([0]), NOW)).toThrow('it stays');
  });

  it('give a measure back to the layer below when it is written as it is there, without tab too', () => {
    const tune = addLayer(tabbedTune([0, 2, 0]), 'slides', freshIds(), LATER);
    const id = layerAt(tune, 1);
    const untabbed = write(tune, 0, 1, { beats: 2, strikes: null });
    const changed = write(write(untabbed, 1, 0, note(4, 'slide')), 1, 1, note(5, 'slide'));
    expect(changedMeasures(changed, id)).toHaveLength(3);
    const back = write(changed, 1, 1, { beats: 2, strikes: null }, 'this');
    expect(changedMeasures(back, id)).toEqual([measureAt(tune, 0), measureAt(tune, 2)]);
    expect(shownIds(back, 1)[1]).toBe(shownIds(tune, 0)[1]);
    const only = write(back, 1, 2, note(0), 'this');
    expect(changedMeasures(only, id)).toEqual([measureAt(tune, 0)]);
    expect(changedMeasures(write(back, 1, 2, note(0)), id)).toEqual([]);
  });

  it('can be renamed', () => {
    const tune = addLayer(tabbedTune([0, 2]), 'slides', freshIds(), LATER);
    const id = layerAt(tune, 1);
    expect(renameLayer(tune, id, 'Ada’s way', LATER).layers[1]?.name).toBe('Ada’s way');
  });

  it('are named after the first technique that the tune does not have yet', () => {
    const plain = tabbedTune([0]);
    expect(nextLayerName(plain)).toBe('drop-thumb');
    const two = addLayer(plain, 'drop-thumb', freshIds(), NOW);
    expect(nextLayerName(two)).toBe('hammer-ons and pull-offs');
    expect(nextLayerName(write(two, 1, 0, note(2, 'pull-off')))).toBe('slides');
  });
});

describe('whatever is written', () => {
  const edits = fc.array(
    fc.record({
      depth: fc.integer({ min: 0, max: 2 }),
      index: fc.integer({ min: 0, max: 4 }),
      fret: fc.integer({ min: 0, max: 6 }),
      scope: fc.constantFrom('shared' as const, 'this' as const),
    }),
    { minLength: 1, maxLength: 8 },
  );
  const tunes = fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 5, maxLength: 5 }).map(tabbedTune);

  it('layers below keep what they show, layers above what they change; ids stay; the book takes it', () => {
    fc.assert(
      fc.property(tunes, edits, (plain, steps) => {
        const nextId = freshIds();
        let tune = addLayer(addLayer(plain, 'one', nextId, NOW), 'two', nextId, NOW);
        for (const { depth, index, fret, scope } of steps) {
          const next = write(tune, depth, index, note(fret), scope, nextId);
          for (let below = 0; below < depth; below += 1)
            expect(heard(next, below)).toEqual(heard(tune, below));
          for (let above = depth + 1; above < 3; above += 1) {
            const own = Object.keys(tune.layers[above]?.changes ?? {});
            const places = boardMeasures(tune).flatMap(({ id }, at) => (own.includes(id) ? [at] : []));
            for (const at of places) expect(heard(next, above)[at]).toBe(heard(tune, above)[at]);
          }
          expect(heard(next, depth)[index]).toBe(contentKey(note(fret)));
          expect(boardMeasures(next).map(({ id }) => id)).toEqual(boardMeasures(tune).map(({ id }) => id));
          const ids = new Set(next.figures.map(({ id }) => id));
          expect(tune.figures.every(({ id }) => ids.has(id))).toBe(true);
          expect(v.safeParse(tuneSchema, next).issues).toBeUndefined();
          tune = next;
        }
      }),
      { numRuns: 60 },
    );
  });

  it('writing a measure anew and back again gives what there was, in every layer', () => {
    fc.assert(
      fc.property(tunes, edits, (plain, steps) => {
        const nextId = freshIds();
        let tune = addLayer(plain, 'one', nextId, NOW);
        for (const { depth: any, index, fret, scope } of steps) {
          const depth = any % 2;
          const figureId = shownIds(tune, depth)[index];
          const old = tune.figures.find(({ id }) => id === figureId);
          const away = write(tune, depth, index, note(fret), 'this', nextId);
          const back = write(away, depth, index, { beats: 2, strikes: old?.strikes ?? null }, 'this', nextId);
          expect([heard(back, 0), heard(back, 1)]).toEqual([heard(tune, 0), heard(tune, 1)]);
          tune = write(tune, depth, index, note(fret), scope, nextId);
        }
      }),
      { numRuns: 60 },
    );
  });
});
