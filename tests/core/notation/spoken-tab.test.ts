import { describe, expect, it } from 'vitest';
import { spokenStretch, spokenTab } from '../../../src/lib/core/notation/spoken-tab';
import { measureAt, METER, strikeAt } from './stretches';

const busy = measureAt(0, [
  strikeAt(0, 1, 2),
  strikeAt(1, 2, 1, 'drop-thumb'),
  strikeAt(2, 1, 0, 'brush'),
  strikeAt(3, 5, 0, 'drone'),
  strikeAt(4, 1, 12, 'hammer-on'),
  strikeAt(6, 4, 22, 'slide'),
  strikeAt(7, 5, 7, 'drone'),
]);

describe('tab in words', () => {
  it('tells each strike at its counted place, both beats apart', () => {
    expect(spokenStretch(busy, METER)).toBe(
      'beat one: strike first string second fret; e: drop-thumb second string first fret; ' +
        'and: brush from first string open; a: drone; beat two: hammer-on first string twelfth fret; ' +
        'and: slide fourth string twenty-second fret; a: drone seventh fret',
    );
  });

  it('counts eighths in 4/4 and in 6/8', () => {
    const even = measureAt(0, [strikeAt(0, 1, 2), strikeAt(2, 5, 0, 'drone')], 4);
    expect(spokenStretch(even, '4/4')).toBe('beat one: strike first string second fret; and: drone');
    const compound = measureAt(0, [strikeAt(2, 1, 0), strikeAt(6, 1, 0), strikeAt(10, 1, 0)]);
    expect(spokenStretch(compound, '6/8')).toBe(
      'and: strike first string open; beat two: strike first string open; a: strike first string open',
    );
  });

  it('tells a seam by the beats of its own measures', () => {
    const seam = [
      { ...busy, fromBeat: 1 },
      { ...measureAt(1, [strikeAt(0, 3, 0), strikeAt(4, 3, 2)]), toBeat: 1 },
    ];
    expect(spokenTab(seam, METER)).toBe(
      'A1, beat two: hammer-on first string twelfth fret; and: slide fourth string twenty-second fret; ' +
        'a: drone seventh fret. A2, beat one: strike third string open',
    );
  });

  it('says what is finer than the count, what is silent and what has no tab', () => {
    const fine = measureAt(0, [{ ...strikeAt(0, 1, 0), onset: [1, 32] }]);
    expect(spokenStretch(fine, METER)).toBe('just after beat one: strike first string open');
    expect(spokenStretch(measureAt(0, []), METER)).toBe('silent');
    expect(spokenStretch(measureAt(0, null), METER)).toBe('no tab yet');
  });

  it('tells strings that sound together as one', () => {
    const pinch = measureAt(0, [strikeAt(0, 1, 0), strikeAt(0, 5, 0, 'drone')]);
    expect(spokenStretch(pinch, METER)).toBe('beat one: strike first string open with drone');
  });

  it('tells fingers, weights and what rings on', () => {
    const told = measureAt(0, [
      { ...strikeAt(0, 1, 2), finger: 2, weight: 'accent' },
      strikeAt(4, 1, 2, 'tie'),
      { ...strikeAt(6, 5, 0, 'drone'), weight: 'ghost' },
    ]);
    expect(spokenStretch(told, METER)).toBe(
      'beat one: strike first string second fret finger 2, accent; ' +
        'beat two: first string second fret rings on; and: drone, ghost',
    );
  });

  it('tells chords and words at their places, with or without a strike', () => {
    const plain = measureAt(0, [strikeAt(0, 1, 0)]);
    const labels = [
      { onset: [0, 1], kind: 'chord', text: 'G' },
      { onset: [0, 1], kind: 'word', text: 'hen' },
      { onset: [1, 4], kind: 'chord', text: 'D7' },
    ] as const;
    const told = { ...plain, measure: { ...plain.measure, labels } };
    expect(spokenStretch(told, METER)).toBe(
      'beat one: chord G, word hen, strike first string open; beat two: chord D7',
    );
    expect(spokenStretch({ ...told, fromBeat: 1 }, METER)).toBe('silent; beat two: chord D7');
  });

  it('tells a melody without tab by its pitches (middle C is C 4)', () => {
    const place = measureAt(0, null);
    const melody = [
      { onset: [0, 1], duration: [1, 8], pitch: 60 },
      { onset: [1, 8], duration: [1, 2], pitch: 66 },
    ] as const;
    expect(spokenStretch({ ...place, figure: { ...place.figure, melody } }, METER)).toBe(
      'melody, no tab yet, beat one: C 4; and: F sharp 4, two beats',
    );
  });
});
