import { describe, expect, it } from 'vitest';
import { turnSegments, breathId } from '../../../src/lib/core/practice/drill-segments';
import { GOAL_LEVEL, levelOf } from '../../../src/lib/core/practice/level';
import { handfulMarks, nextHandful, nextMark, type Mark } from '../../../src/lib/core/practice/marking';
import {
  figurePassages,
  firstLayer,
  passageStretches,
  seamPassages,
} from '../../../src/lib/core/tune/places';
import { sampleTune } from '../tune/sample';

describe('marking in the breath', () => {
  it('moves the word on by one with each touch, back to unmarked after the third', () => {
    const words: Mark[] = [null];
    for (let touches = 0; touches < 5; touches += 1) words.push(nextMark(words.at(-1) ?? null));
    expect(words).toEqual([null, 'clean', 'stumbled', 'broke down', null, 'clean']);
  });

  it('counts the clean ones of a handful, then none, then unmarked', () => {
    const counts: (number | null)[] = [null];
    for (let touches = 0; touches < 7; touches += 1) counts.push(nextHandful(counts.at(-1) ?? null));
    expect(counts).toEqual([null, 1, 2, 3, 4, 0, null, 1]);
    expect(handfulMarks(3)).toEqual(['clean', 'clean', 'clean', 'stumbled']);
    expect(handfulMarks(0)).toEqual(['stumbled', 'stumbled', 'stumbled', 'stumbled']);
    expect(handfulMarks(null)).toEqual([null, null, null, null]);
  });
});

describe('the segments of a turn', () => {
  const tune = sampleTune();
  const rhythm = { meter: '2/4', pattern: 'beat', countIn: 1, breath: '1' } as const;
  const turn = { firstPass: 3, passes: 1, tempo: 70 };

  it('counts in, plays the measure, and breathes for a measure', () => {
    const [figure] = figurePassages(tune, firstLayer(tune).id);
    const stretches = figure ? passageStretches(tune, figure) : [];
    const segments = turnSegments(turn, { ...rhythm, stretches });
    expect(segments.map(({ id, measures, pattern }) => [id, measures, pattern])).toEqual([
      ['count-in-3', [2], 'beat'],
      ['pass-3', [2], 'beat'],
      ['breath-3', [2], 'silent'],
    ]);
    expect(breathId(turn)).toBe('breath-3');
  });

  it('counts a seam in up to its place in the measure', () => {
    const [seam] = seamPassages(tune, firstLayer(tune).id);
    const stretches = seam ? passageStretches(tune, seam) : [];
    const [countIn, pass] = turnSegments(turn, { ...rhythm, stretches });
    expect(countIn?.measures).toEqual([2, 1]);
    expect(pass).toMatchObject({ measures: [1, 1], pickup: true });
  });

  it('runs silent measures on from pass to pass, counts aloud, and marks where a part begins', () => {
    const [figure] = figurePassages(tune, firstLayer(tune).id);
    const stretches = figure ? passageStretches(tune, figure) : [];
    const choices = { swing: 1.5, spokenCount: true, silentMeasures: { on: 2, off: 1 } };
    const segments = turnSegments({ ...turn, passes: 2 }, { ...rhythm, ...choices, stretches });
    expect(segments[0]).toMatchObject({ spoken: true, pattern: 'beat' });
    expect(segments[1]).toMatchObject({
      swing: 1.5,
      parts: [0],
      silentMeasures: { on: 2, off: 1, before: 2 },
    });
    expect(segments[2]).toMatchObject({ silentMeasures: { before: 3 } });
    expect(segments[3]?.silentMeasures).toBeUndefined();
  });

  it('runs a handful on, and waits in a breath that waits', () => {
    const segments = turnSegments({ ...turn, passes: 4 }, { ...rhythm, breath: 'wait', stretches: [] });
    expect(segments.map(({ id }) => id)).toEqual([
      'count-in-3',
      'pass-3',
      'pass-4',
      'pass-5',
      'pass-6',
      'breath-3',
    ]);
    expect(segments.at(-1)).toMatchObject({ waits: true, measures: [] });
  });
});

describe('the level of a tile', () => {
  it('meets the goal line at the goal, and is empty at two fifths of it', () => {
    expect(levelOf(112, 112)).toBeCloseTo(GOAL_LEVEL, 12);
    expect(levelOf(44.8, 112)).toBe(0);
    expect(levelOf(78, 112)).toBeCloseTo(0.436, 3);
    expect(levelOf(null, 112)).toBe(0);
  });

  it.each([
    [Number.NaN, 112],
    [100, 0],
    [100, Number.NaN],
    [-1, 112],
    [9000, 112],
  ])('stays on the tile for %d of %d', (tempo, goal) => {
    expect(levelOf(tempo, goal)).toBeGreaterThanOrEqual(0);
    expect(levelOf(tempo, goal)).toBeLessThanOrEqual(1);
  });
});
