import { describe, expect, it } from 'vitest';
import { techniqueLetter } from '$lib/core/notation/technique-letter';
import { TECHNIQUES } from '$lib/core/tune/strike';
import { editorKey } from '$lib/ui/editor/editor-keys';
import { passesWords, techniqueMark } from '$lib/ui/editor/editor-words';

const press = (key: string) => editorKey({ key, ctrlKey: false, metaKey: false, altKey: false });

describe('the letters of techniques', () => {
  it('are H, P and S for hammer-on, pull-off and slide, D for drop-thumb (common practice)', () => {
    const letters = TECHNIQUES.map((technique) => [technique, techniqueLetter(technique)] as const);
    expect(letters.filter(([, letter]) => letter !== null)).toEqual([
      ['drop-thumb', 'D'],
      ['hammer-on', 'H'],
      ['pull-off', 'P'],
      ['slide', 'S'],
    ]);
  });

  it('are the same over the tab, beside a fret of the editor, and on the keys', () => {
    for (const technique of TECHNIQUES) {
      const letter = techniqueLetter(technique);
      if (letter === null) continue;
      expect(techniqueMark(technique)).toBe(letter);
      expect(press(letter.toLowerCase())).toEqual({ kind: 'technique', technique });
    }
    expect(techniqueMark('brush')).toBe('↓');
  });

  it('leave a key to each technique', () => {
    const reached = new Set(
      [...'abcdefghijklmnopqrstuvwxyz'].flatMap((key) => {
        const does = press(key);
        return does?.kind === 'technique' ? [does.technique] : [];
      }),
    );
    expect([...reached].sort()).toEqual([...TECHNIQUES].sort());
  });
});

describe('what becomes of passes', () => {
  it('is said in one sentence, and not at all while they stay', () => {
    const left = { labels: ['A1', 'B2'], below: 'plain' };
    expect(passesWords({ kind: 'stay' }, 'A3')).toBeNull();
    expect(passesWords({ kind: 'begins', left }, 'A3')).toBe(
      'A3 begins without passes; those so far stay with A1 and B2.',
    );
    expect(passesWords({ kind: 'begins', left: { labels: [], below: 'plain' } }, 'A3')).toBe(
      'A3 begins without passes; those so far stay with the plain layer.',
    );
    expect(
      passesWords(
        { kind: 'takes over', by: { labels: [], below: null }, left: { labels: [], below: null } },
        'A3',
      ),
    ).toBe(
      'A3 takes over the passes of the measure it becomes again; those so far are kept, and come back when it is written so again.',
    );
    expect(passesWords({ kind: 'other length', isLonger: false }, 'A3')).toBe(
      'What you played on A3 stays with it, though it is shorter now.',
    );
  });
});
