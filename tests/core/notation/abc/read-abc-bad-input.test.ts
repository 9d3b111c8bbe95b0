import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { listAbcTunes, readAbc } from '../../../../src/lib/core/notation/abc/read-abc';
import { readingOfScore } from '../../../../src/lib/core/notation/score-reading';
import { compare, ZERO } from '../../../../src/lib/core/rhythm/rational';

const SOUND_TUNE = `X:1
T:Made for damage
M:6/8
L:1/8
P:AB
Q:3/8=100
K:D Phr ^f
P:A
|:"D"A>Bc {g}(3def [ceg]2-|[ceg]2 z !trill!d'2_e|1 d3 D,3:|2 d6||
w:one two-three * four
P:B
[K:G] g<f^e d2B|V:2
[M:2/4]Z2|x2 (5:4:5ABcde|]
`;

/** Pieces that are likely to meet in a text of ABC, and some that are not. */
const piece = fc.oneof(
  fc.constantFrom(
    'X:1\n',
    'K:',
    'M:',
    'L:1/',
    'Q:',
    'P:(A',
    'V:2\n',
    'w:',
    '[K:',
    '[1,3-',
    '|:',
    ':|',
    '::',
    '(3:',
    '>>>',
    '{',
    '"',
    '!',
  ),
  fc.constantFrom(
    'A',
    "c''",
    '_B,,',
    '/',
    '//',
    '-',
    '[CEG]',
    'Z999',
    '99999',
    '\n',
    '\\\n',
    '%',
    '%%',
    '+:',
    '&',
    ')',
    ']',
    '3/7',
  ),
  fc.string({ unit: 'binary', maxLength: 3 }),
);

function expectSound(text: string): void {
  for (const score of readAbc(text).scores) {
    for (const { notes, length } of score.voices.flatMap(({ measures }) => measures)) {
      expect(compare(length, ZERO)).toBeGreaterThan(0);
      for (const { pitch, onset, duration } of notes) {
        expect(pitch >= 0 && pitch <= 127 && compare(onset, ZERO) >= 0 && compare(duration, ZERO) > 0).toBe(
          true,
        );
      }
    }
    for (const { line, column } of score.warnings) expect(Math.min(line, column)).toBeGreaterThanOrEqual(1);
  }
}

describe('readAbc of bad input', () => {
  test('any text is read to sound notes, or not at all', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 60 }), (pieces) => {
        expectSound(`X:1\nK:C\n${pieces.join('')}`);
        expectSound(pieces.join(''));
      }),
      { numRuns: 300 },
    );
  });

  test('a tune that was damaged anywhere is read to sound notes', () => {
    fc.assert(
      fc.property(fc.nat(SOUND_TUNE.length), fc.nat(6), piece, (at, length, put) => {
        expectSound(SOUND_TUNE.slice(0, at) + put + SOUND_TUNE.slice(at + length));
      }),
      { numRuns: 300 },
    );
  });

  // vitest gives up a test that hangs
  test.each([
    ...[
      '"',
      '{',
      '[',
      '[A:',
      '(3',
      'Z999',
      '|:',
      'a>',
      '!a',
      '[CEG]',
      '&',
      '\\\n',
      'X:1\n',
      '(A',
      'w:',
      '/',
      ':',
    ],
    '\n+:a',
  ])('three hundred thousand characters of %j come to an end', (sign) => {
    const music = sign.repeat(300_000 / sign.length);
    const text = `X:1\nP:${'('.repeat(50)}\nK:C\n${music}`;
    expect(listAbcTunes(text).length).toBeGreaterThan(0);
    expect(readAbc(text).scores.length).toBeGreaterThan(0);
  });

  // of each, unbounded reading took from seconds to minutes
  test.each([
    ['measures', 'CDEF GABc|'],
    ['measures on lines', 'CDEF GABc|\n'],
    ['repeats', '|:A|1B:|2C|]'],
    ['notes without a bar line', 'A'],
    ['chords without a bar line', '[CEGceg]'],
    ['chord symbols', '"G"A'],
    ['fields', 'K:G\nA|\n'],
    ['voices', 'V:1\nCDEF|\nV:2\nGABc|\n'],
  ])(
    'of two million characters of %s so much is read as a tune can be, and the rest is named',
    (_what, piece) => {
      const [score] = readAbc(`X:1\nK:C\n${piece.repeat(2_000_000 / piece.length)}`).scores;
      const [voice] = score!.voices;
      expect(voice!.measures.length).toBeLessThanOrEqual(2000);
      expect(Math.max(...voice!.measures.map(({ notes }) => notes.length))).toBeLessThan(1010);
      expect(score!.warnings.map(({ message }) => message).join()).toMatch(
        /^Line \d+, column \d+: this is longer than any tune; what follows is left out/,
      );
      expect(readingOfScore(score!).parts.length).toBeGreaterThan(0);
    },
  );

  test('a tune of 2,000 measures is read whole', () => {
    const [score] = readAbc(`X:1\nL:1/4\nK:C\n${'CDEF|\n'.repeat(2000)}`).scores;
    expect(score!.voices[0]!.measures).toHaveLength(2000);
    expect(score!.warnings).toEqual([]);
  });

  test('of a text of very many tunes the first 50,000 are listed', () => {
    expect(listAbcTunes('X:1\n'.repeat(60_000))).toHaveLength(50_000);
  });
});
