import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  figureCount,
  measureAt,
  placesOf,
  resizePart,
  shareMeasures,
  sourceOf,
  splitMeasure,
} from '../../../src/lib/core/tune/draft-sharing';
import { draftOf, editTune, figuresTakenOff } from '../../../src/lib/core/tune/edit-tune';
import { emptyParts, makeTune, type PartDraft } from '../../../src/lib/core/tune/make-tune';
import type { Tune } from '../../../src/lib/core/tune/tune';
import { countingIds, NOW, sampleDraft, sampleTune } from './sample';

const LATER = { ...NOW, at: NOW.at + 1000 };
const at = (part: string, index: number): { part: string; index: number } => ({ part, index });
const figuresOf = (tune: Tune): string[] =>
  tune.parts.flatMap(({ measures }) => measures.map(({ figureId }) => figureId));

function freshIds(): () => string {
  let count = 0;
  return () => `0193c111-0000-7000-8000-${String((count += 1)).padStart(12, '0')}`;
}

function edit(tune: Tune, change: (parts: readonly PartDraft[]) => PartDraft[] | null): Tune {
  const draft = draftOf(tune);
  return editTune(tune, { ...draft, parts: change(draft.parts) ?? draft.parts }, freshIds(), LATER);
}

describe('editing a tune', () => {
  it('changes no id when nothing but the title changes', () => {
    const tune = sampleTune();
    const next = editTune(tune, { ...draftOf(tune), title: 'Marl Pit' }, freshIds(), LATER);
    expect(next).toEqual({ ...tune, title: 'Marl Pit', editedAt: LATER.at });
  });

  it('lets a shared measure take the earlier figure, and gives it one of its own when split off again', () => {
    const tune = sampleTune();
    const [a2, a4] = [figuresOf(tune)[1], figuresOf(tune)[3]];
    const shared = edit(tune, (parts) => shareMeasures(parts, at('A', 3), at('A', 1)));
    expect(figuresOf(shared)[3]).toBe(a2);
    expect(figuresTakenOff(tune, shared)).toEqual([a4]);
    const split = edit(shared, (parts) => splitMeasure(parts, at('A', 3)));
    expect(figuresOf(split)[1]).toBe(a2);
    expect(figuresOf(split)[3]).not.toBe(a2);
  });

  it('leaves the history with the first measure when the first one is split off', () => {
    const shared = edit(sampleTune(), (parts) => shareMeasures(parts, at('A', 0), at('B', 0)));
    const figure = figuresOf(shared)[0];
    const split = edit(shared, (parts) => splitMeasure(parts, at('A', 0)));
    expect(figuresOf(split)[0]).toBe(figure);
    expect(figuresOf(split)[4]).not.toBe(figure);
  });

  it('keeps measures that are taken off the board, and their figures, on the shelf', () => {
    const tune = sampleTune();
    const shorter = edit(tune, (parts) => resizePart(parts, 'B', 2, 2));
    expect(shorter.parts[1]?.measures).toEqual(tune.parts[1]?.measures.slice(0, 2));
    expect(shorter.shelf).toEqual(tune.parts[1]?.measures.slice(2));
    expect(shorter.figures.map(({ id }) => id).sort()).toEqual(tune.figures.map(({ id }) => id).sort());
  });

  it('refuses a measure that is to be the same as a later one', () => {
    const parts = emptyParts('A', [2], '2/4').map((part) => ({
      ...part,
      measures: part.measures.map((measure, index) =>
        index === 0 ? { ...measure, sameAs: at('A', 1) } : measure,
      ),
    }));
    expect(() => makeTune(sampleDraft({ form: 'A', parts }), countingIds(), NOW)).toThrow(
      'A1 is to be the same as A2, which comes later',
    );
  });
});

describe('sharing measures in a draft', () => {
  it('does not share measures of different lengths', () => {
    const parts = emptyParts('A', [2], '2/4').map((part) => ({
      ...part,
      measures: part.measures.map((measure, index) => ({ ...measure, beats: index + 2 })),
    }));
    expect(shareMeasures(parts, at('A', 0), at('A', 1))).toBeNull();
  });

  it('keeps every draft whole: each share points at an earlier measure of the same length', () => {
    const place = fc.record({ part: fc.constantFrom('A', 'B', 'C'), index: fc.nat(7) });
    const step = fc.oneof(
      fc.record({ do: fc.constant('share' as const), a: place, b: place }),
      fc.record({ do: fc.constant('split' as const), a: place }),
      fc.record({ do: fc.constant('resize' as const), a: place }),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        let parts: PartDraft[] = emptyParts('AABBC', [8, 8, 4], '2/4');
        for (const action of steps) {
          if (action.do === 'share') parts = shareMeasures(parts, action.a, action.b) ?? parts;
          if (action.do === 'split') parts = splitMeasure(parts, action.a);
          if (action.do === 'resize') parts = resizePart(parts, action.a.part, action.a.index + 1, 2);
        }
        const tune = makeTune(sampleDraft({ form: 'AABBC', parts }), countingIds(), NOW);
        expect(tune.figures).toHaveLength(figureCount(parts));
        for (const spot of placesOf(parts)) {
          expect(measureAt(parts, sourceOf(parts, spot))?.beats).toBe(measureAt(parts, spot)?.beats);
        }
      }),
    );
  });
});
