import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noteOver } from '../../../src/lib/core/practice/note-over';

describe('a line of notes written in two tabs', () => {
  it('is what was written, where nobody else wrote', () => {
    expect(noteOver('slow', 'slow', 'slow, thumb late')).toBe('slow, thumb late');
    expect(noteOver('slow', 'slow', '')).toBe('');
  });

  it('is what the other tab made of it, where nothing was written here', () => {
    expect(noteOver('slow and even', 'slow', 'slow')).toBe('slow and even');
    expect(noteOver('slow', '', '')).toBe('slow');
  });

  it('has both, what was there before only once', () => {
    expect(noteOver('slow, thumb late', 'slow', 'slow, A3 too')).toBe('slow, thumb late\n, A3 too');
    expect(noteOver('thumb late', '', 'A3 too')).toBe('thumb late\nA3 too');
  });

  it('has every word of what both added', () => {
    const words = fc.string({ minLength: 1, maxLength: 20 }).map((text) => `<${text}>`);
    fc.assert(
      fc.property(words, words, words, (before, theirs, mine) => {
        const both = noteOver(before + theirs, before, before + mine);
        for (const part of [before, theirs, mine]) expect(both).toContain(part);
      }),
    );
  });
});
