import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TITLE_MAX } from '../../../src/lib/core/tune/limits';
import { readTitles, TITLES_MAX } from '../../../src/lib/core/tune/title-list';

const none = () => false;

describe('readTitles', () => {
  it('reads one title a line, without the marks and numbers of a list, each once', () => {
    const text = '1. Sandy Boys\r\n2) Old Joe Clark\n - Cluck Old Hen \n\n• sandy boys\n* Tin Lantern';
    expect(readTitles(text, none).titles).toEqual([
      'Sandy Boys',
      'Old Joe Clark',
      'Cluck Old Hen',
      'Tin Lantern',
    ]);
  });

  it('keeps a number that belongs to the title', () => {
    expect(readTitles('8th Lantern\n3-in-One\n40 Paces', none).titles).toEqual([
      '8th Lantern',
      '3-in-One',
      '40 Paces',
    ]);
  });

  it('leaves out what the book has, and says which', () => {
    const isTaken = (title: string) => title.toLowerCase() === 'sandy boys';
    expect(readTitles('Sandy Boys\nTin Lantern', isTaken)).toEqual({
      titles: ['Tin Lantern'],
      taken: ['Sandy Boys'],
      problem: null,
    });
  });

  it('says what cannot be added', () => {
    expect(readTitles('Q'.repeat(TITLE_MAX + 1), none).problem).toMatch(/at most 200\. One title a line\.$/);
    const many = Array.from({ length: TITLES_MAX + 1 }, (_, index) => `Tune ${index}`).join('\n');
    expect(readTitles(many, none).problem).toBe('These are 201 titles. At most 200 are added in one go.');
  });

  it('loses no line that is no repeat, whatever is pasted', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { maxLength: 40 }), (lines) => {
        const { titles, taken } = readTitles(lines.join('\n'), (title) => title < 'm');
        expect([...titles, ...taken].sort()).toEqual([...new Set(lines)].sort());
      }),
    );
  });
});
