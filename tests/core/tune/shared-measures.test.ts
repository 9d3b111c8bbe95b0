import { describe, expect, it } from 'vitest';
import { makeTune } from '../../../src/lib/core/tune/make-tune';
import { findSharedMeasures, writingOf } from '../../../src/lib/core/tune/shared-measures';
import type { Strike } from '../../../src/lib/core/tune/strike';

const strike = (fret: number): Strike => ({
  onset: [0, 1],
  duration: [1, 2],
  string: 1,
  fret,
  technique: 'strike',
});
const measure = (fret: number, beats = 2) => ({ beats, strikes: [strike(fret)], sameAs: null });
const empty = { beats: 2, strikes: null, sameAs: null };

describe('findSharedMeasures', () => {
  const parts = findSharedMeasures([
    { name: 'A', measures: [measure(0), measure(2), measure(0), empty, measure(0, 3)] },
    { name: 'B', measures: [measure(2), empty, { ...empty, sameAs: { part: 'A', index: 3 } }] },
  ]);

  it('points at the first equal measure, across parts', () => {
    expect(parts.map(({ measures }) => measures.map(({ sameAs }) => sameAs))).toEqual([
      [null, null, { part: 'A', index: 0 }, null, null],
      [{ part: 'A', index: 1 }, null, { part: 'A', index: 3 }],
    ]);
  });

  it('gives a tune whose figures are the different measures', () => {
    let count = 0;
    const tune = makeTune(
      {
        title: 'Test',
        tuning: [67, 50, 55, 59, 62],
        capo: 0,
        spike: 0,
        key: 'G',
        meter: '2/4',
        goalTempo: 100,
        form: 'AABB',
        parts,
        pickup: null,
      },
      () => `id-${++count}`,
      { at: 0, offsetMin: 0 },
    );
    expect(tune.figures).toHaveLength(5);
    expect(tune.parts[1]?.measures[2]?.figureId).toBe(tune.parts[0]?.measures[3]?.figureId);
  });
});

describe('writingOf', () => {
  const sung = { strikes: null, melody: [{ onset: [0, 1], duration: [1, 2], pitch: 67 }] as const };

  it('is tab as soon as a measure has any, melody without, and nothing without either', () => {
    expect(writingOf([empty, sung, measure(0)])).toBe('tab');
    expect(writingOf([empty, sung])).toBe('melody');
    expect(writingOf([empty])).toBe(null);
  });
});
