import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsLeftOut, playOrder } from '../../../src/lib/core/notation/play-order';
import { drawnVoice, letters, madeMeasure } from './drawn-scores';

function played(drawing: string, order: string | null = null): string {
  const voice = drawnVoice(drawing);
  return letters(voice, playOrder(voice, order === null ? null : [...order]));
}

describe('playOrder', () => {
  // ABC 2.1, sections 4.8 and 4.9 (repeats, missing repeat starts, first and second endings)
  it.each([
    ['measures without signs', '|ab|c|', 'abc'],
    ['a repeat', '|:ab:|', 'abab'],
    ['a repeat without its start, from the beginning', '|ab:|c|', 'ababc'],
    ['a repeat without its start, from the last double bar', '|a||b:|c', 'abbc'],
    ['a repeat without its start, from the last repeat', '|:a:|b:|', 'aabb'],
    ['one sign for two repeats', '|:a:||:b:|', 'aabb'],
    ['three times', '|::a::|', 'aaa'],
    ['a double bar inside a repeat', '|:a||b:|', 'abab'],
    ['a repeat that is never closed', '|:a|b', 'ab'],
    ['a start that replaces one that was not closed', '|:a|:b:|', 'abb'],
    ['endings', '|:a|1b:|2c||', 'abac'],
    ['endings without the start', '|a|1b:|2c||', 'abac'],
    ['endings that both have their sign', '|:a|1b:|2c:|d', 'abacd'],
    ['music after the endings', '|:a|1b:|2c||d|', 'abacd'],
    ['endings of two sections', '|:a|1b:|2c||:d|1e:|2f||', 'abacdedf'],
    ['a repeat after endings that has no start', '|:a|1b:|2c||d:|', 'abacdd'],
    ['endings of several measures', '|:a|1bc:|2de||', 'abcade'],
    ['a list of endings', '|:a|1,3b:|2c||', 'abacab'],
    ['a list of endings with both signs', '|:a|1,3b:|2c:|d', 'abacabd'],
    ['three endings', '|:a|1b:|2c:|3d||', 'abacad'],
    ['an ending for two times and one for the third', '|:a|1,2b:|3c||', 'ababac'],
    ['endings that no repeat goes with', '|:a|1b|2c||', 'abc'],
    ['a second ending alone', '|a|2c||', 'ac'],
    ['a first ending alone', '|:a|1b:||d|', 'abad'],
  ])('plays %s', (_, drawing, expected) => expect(played(drawing)).toBe(expected));

  it.each([
    // ABC 2.1, section 3.1.9; `abc2midi` plays each part's own repeats too
    ['parts in their order', '(A)a|b||(B)c||', 'ABA', 'abcab'],
    ['repeats inside of parts', '(A)|:a:|(B)b||', 'AAB', 'aaaab'],
    ['what stands before the first part once', '|x|(A)a||(B)b||', 'AABB', 'xaabb'],
    // ABC 2.1, section 4.10: "parts A and B will each be played 4 times. To play a different ending each time ..."
    ['as many endings as times in a row', '(A)a|1b:|2c:|3d:|4e||(B)|:f:|', 'AAAAB', 'abacadaeff'],
    ['endings by the time of the part where it has no repeat signs', '(A)a|1b||2c||', 'AA', 'abac'],
    ['names that are not there as nothing', '(A)a||(B)b||', 'AXB', 'ab'],
    ['as written when no name is there', '(A)a||(B)b||', 'XY', 'ab'],
  ])('plays %s', (_, drawing, order, expected) => expect(played(drawing, order)).toBe(expected));

  it('names the parts that the order forgets', () => {
    const voice = drawnVoice('(A)a||(B)b||');
    expect(partsLeftOut(voice, ['A'])).toEqual(['B']);
    expect(partsLeftOut(voice, null)).toEqual([]);
    expect(partsLeftOut(voice, ['X'])).toEqual([]);
  });

  it('ends on any signs, and plays each measure that no repeat, ending or order leaves out', () => {
    const measure = fc.record({
      opensRepeat: fc.boolean(),
      timesPlayed: fc.constantFrom(0, 0, 0, 2, 3, 1e9),
      ending: fc.constantFrom(null, null, [1], [2], [1, 3], [7], [1e9], []),
      endsSection: fc.boolean(),
      part: fc.constantFrom(null, null, null, 'A', 'B'),
    });
    const order = fc.option(fc.array(fc.constantFrom('A', 'B', 'C'), { maxLength: 30 }), { nil: null });
    fc.assert(
      fc.property(fc.array(measure, { maxLength: 14 }), order, (signs, parts) => {
        const measures = signs.map((change) => madeMeasure(60, change));
        const indices = playOrder({ name: '', measures }, parts);
        expect(indices.length).toBeLessThanOrEqual(20_000);
        expect(indices.every((index) => index in measures)).toBe(true);
        if (parts) return;
        const heard = new Set(indices);
        const unheard = measures.filter(({ ending }, index) => ending === null && !heard.has(index));
        expect(unheard).toEqual([]);
      }),
    );
  });

  it('plays at most 20,000 measures', () => {
    const measures = Array.from({ length: 1000 }, () =>
      madeMeasure(60, { timesPlayed: 64, opensRepeat: true }),
    );
    expect(playOrder({ name: '', measures }, null)).toHaveLength(20_000);
  });
});
