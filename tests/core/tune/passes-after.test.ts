import { describe, expect, it } from 'vitest';
import { changeMeasure, type MeasureChange } from '../../../src/lib/core/tune/change-measure';
import { boardMeasures } from '../../../src/lib/core/tune/layer-figures';
import { addLayer } from '../../../src/lib/core/tune/layers';
import { passesAfter } from '../../../src/lib/core/tune/passes-after';
import type { Id, Tune } from '../../../src/lib/core/tune/tune';
import { NOW, sampleTune } from './sample';

let made = 0;
const nextId = (): Id => `0193c222-0000-7000-8000-${String((made += 1)).padStart(12, '0')}`;

function note(fret: number, beats = 2): MeasureChange['content'] {
  return { beats, strikes: [{ onset: [0, 1], duration: [1, 4], string: 1, fret, technique: 'strike' }] };
}

/** A1, A2 and A3, of which A3 is A1 again, and a layer over the plain one. */
const tune = addLayer(
  sampleTune({
    form: 'A',
    parts: [
      {
        name: 'A',
        measures: [
          { ...note(0), sameAs: null },
          { ...note(2), sameAs: null },
          { ...note(0), sameAs: { part: 'A', index: 0 } },
        ],
      },
    ],
  }),
  'slides',
  nextId,
  NOW,
);

function change(
  of: Tune,
  depth: number,
  index: number,
  content: MeasureChange['content'],
  scope: MeasureChange['scope'] = 'this',
): MeasureChange {
  const [layer, measure] = [of.layers[depth], boardMeasures(of)[index]];
  if (!layer || !measure) throw new Error('No such place in the sample');
  return { layerId: layer.id, measureId: measure.id, content, scope };
}

describe('the passes of a measure that is written anew', () => {
  it('stay with the figure that is written over', () => {
    expect(passesAfter(tune, change(tune, 0, 1, note(5)))).toEqual({ kind: 'stay' });
    expect(passesAfter(tune, change(tune, 0, 2, note(5), 'shared'))).toEqual({ kind: 'stay' });
  });

  it('stay though the length is another', () => {
    expect(passesAfter(tune, change(tune, 0, 1, note(2, 2.5)))).toEqual({
      kind: 'other length',
      isLonger: true,
    });
    expect(passesAfter(tune, change(tune, 0, 1, note(2, 1)))).toEqual({
      kind: 'other length',
      isLonger: false,
    });
  });

  it('are left to the measures that were the same', () => {
    expect(passesAfter(tune, change(tune, 0, 2, note(5)))).toEqual({
      kind: 'begins',
      left: { labels: ['A1'], below: null },
    });
  });

  it('are left to the layer below', () => {
    expect(passesAfter(tune, change(tune, 1, 1, note(5)))).toEqual({
      kind: 'begins',
      left: { labels: [], below: 'plain' },
    });
  });

  it('are those of the measure that it is now the same as', () => {
    expect(passesAfter(tune, change(tune, 0, 1, note(0)))).toEqual({
      kind: 'takes over',
      by: { labels: ['A1', 'A3'], below: null },
      left: { labels: [], below: null },
    });
  });

  it('are those of the layer below again when it is as it is there', () => {
    const layered = changeMeasure(tune, change(tune, 1, 1, note(5)), nextId, NOW);
    expect(passesAfter(layered, change(layered, 1, 1, note(2)))).toEqual({
      kind: 'takes over',
      by: { labels: [], below: 'plain' },
      left: { labels: [], below: null },
    });
  });
});
