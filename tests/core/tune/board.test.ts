import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boardParts, sharedMarks } from '../../../src/lib/core/tune/board';
import { shareMeasures } from '../../../src/lib/core/tune/draft-sharing';
import { emptyParts, type PartDraft } from '../../../src/lib/core/tune/make-tune';
import { firstLayer } from '../../../src/lib/core/tune/places';
import { sampleTune } from './sample';

function boardOf(parts: PartDraft[], perLine: number, form = 'AABB'): ReturnType<typeof boardParts> {
  const tune = sampleTune({ parts, form });
  return boardParts(tune, firstLayer(tune).id, perLine);
}

describe('the measure board', () => {
  it('sets eight measures in two lines of four on a phone, in one line of eight on a wide screen', () => {
    const parts = emptyParts('AABB', [8, 8], '2/4');
    expect(boardOf(parts, 4)[0]?.lines.map((line) => line.length)).toEqual([4, 4]);
    expect(boardOf(parts, 8)[0]?.lines.map((line) => line.length)).toEqual([8]);
  });

  it('lets a ninth measure stand out past the block', () => {
    const lines = boardOf(emptyParts('AABB', [9, 8], '2/4'), 4)[0]?.lines ?? [];
    expect(lines.map((line) => line.length)).toEqual([4, 5]);
    expect(lines[1]?.map(({ over }) => over)).toEqual([false, false, false, false, true]);
  });

  it('gives a measure of three beats in 2/4 three half-columns', () => {
    const parts = emptyParts('A', [4], '2/4').map((part) => ({
      ...part,
      measures: part.measures.map((measure, index) => (index === 3 ? { ...measure, beats: 3 } : measure)),
    }));
    expect(boardOf(parts, 4, 'A')[0]?.lines[0]?.map(({ span }) => span)).toEqual([2, 2, 2, 3]);
  });

  it('marks only the figures that are met more than once', () => {
    const parts = shareMeasures(
      emptyParts('AABB', [4, 4], '2/4'),
      { part: 'A', index: 0 },
      { part: 'B', index: 2 },
    );
    const tune = sampleTune({ parts: parts ?? [] });
    expect([...sharedMarks(tune, firstLayer(tune).id).values()]).toEqual([0]);
    const [a, b] = boardParts(tune, firstLayer(tune).id, 4);
    expect(a?.lines[0]?.map(({ mark }) => mark)).toEqual([0, null, null, null]);
    expect(b?.lines[0]?.map(({ mark }) => mark)).toEqual([null, null, 0, null]);
    expect([a?.figures, b?.figures]).toEqual([4, 4]);
  });

  it('leads from the end of each part to what the form plays next', () => {
    const [a, b] = boardOf(emptyParts('AABB', [4, 4], '2/4'), 4);
    expect(a?.turns.map(({ to }) => to)).toEqual(['A', 'B']);
    expect(b?.turns.map(({ to }) => to)).toEqual(['B']);
  });

  it('places every measure once and fills no line past the columns of its part', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(0.5, 1, 2, 3, 4, 7.5, 16), { minLength: 1, maxLength: 60 }),
        fc.constantFrom(4, 8),
        (beats, perLine) => {
          const measures = beats.map((count) => ({ beats: count, strikes: null, sameAs: null }));
          const part = boardOf([{ name: 'A', measures }], perLine, 'A')[0];
          const lines = part?.lines ?? [];
          expect(lines.flat().map(({ index }) => index)).toEqual(beats.map((_, index) => index));
          for (const line of lines) {
            expect(line.reduce((sum, { span }) => sum + span, 0)).toBeLessThanOrEqual(part?.columns ?? 0);
          }
        },
      ),
    );
  });
});
