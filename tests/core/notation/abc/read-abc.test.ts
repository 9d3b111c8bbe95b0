import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { listAbcTunes, readAbc } from '../../../../src/lib/core/notation/abc/read-abc';
import { readingOfScore } from '../../../../src/lib/core/notation/score-reading';

/** A tune of our own, with most of what people write. */
const WELL = `%abc-2.1
X:3
T:The Winter Well \\'e & <script>alert(1)</script>
% a remark
M:2/4
L:1/8
Q:1/4=96
K:Amix
e|"A"[Ae]>f !accent!e>c|"G"{f}d-d ~B2|
w:down by the win-ter well
|1 (3ABc A:|2 A3|]
`;

describe('an ABC tune', () => {
  const { scores, warnings } = readAbc(WELL);
  const score = scores[0]!;

  test('is read with its head, and its title is text', () => {
    expect(warnings).toEqual([]);
    expect(score).toMatchObject({ number: 3, key: 'A mixolydian', tempo: 96, meter: { count: 2, unit: 4 } });
    expect(score.title).toBe('The Winter Well é & <script>alert(1)</script>');
    expect(score.warnings.map(({ message }) => message)).toEqual([
      'Line 9, column 28: a group of grace notes is left out of the melody.',
    ]);
  });

  test('keeps chords, words and ties in their places', () => {
    const [, first, second] = score.voices[0]!.measures;
    expect(first?.labels).toMatchObject([
      { kind: 'chord', text: 'A', onset: [0, 1] },
      { kind: 'word', text: 'by', onset: [0, 1] },
      { kind: 'word', text: 'the' },
      { kind: 'word', text: 'win-' },
      { kind: 'word', text: 'ter' },
    ]);
    expect(first?.notes.slice(0, 2).map(({ pitch }) => pitch)).toEqual([76, 69]);
    expect(second?.notes[1]).toMatchObject({ pitch: 74, tied: true });
  });

  test('becomes measures: a pickup, and endings written out', () => {
    const reading = readingOfScore(score);
    expect(reading.pickup).toMatchObject({ beats: 0.5, melody: [{ pitch: 76 }] });
    expect(reading.form).toBe('A');
    expect(reading.parts[0]?.measures.length).toBe(6);
  });
});

test('voices are read side by side', () => {
  const { scores } = readAbc('X:1\nK:G\nV:1 name="Fiddle"\nGABc|\nV:2\nG,4|\n[V:1]d4|\n');
  expect(scores[0]?.voices.map(({ name, measures }) => [name, measures.length])).toEqual([
    ['Fiddle', 2],
    ['2', 1],
  ]);
});

test('what cannot be read is named by its place, and the rest is read', () => {
  const { scores } = readAbc('X:1\nM:nonsense\nK:G\nGA;Bc|dedB|\n');
  expect(scores[0]?.warnings.map(({ line, column }) => [line, column])).toEqual([
    [2, 3],
    [4, 3],
  ]);
  expect(scores[0]?.voices[0]?.measures).toHaveLength(2);
});

test('a tunebook is listed by place, number and title', () => {
  const book = Array.from(
    { length: 5000 },
    (_, n) => `X:${n + 1}\nT:Tune ${n}\nK:G\nGABc|\n\nbetween\n`,
  ).join('\n');
  const tunes = listAbcTunes(book);
  expect(tunes).toHaveLength(5000);
  expect(tunes[4999]).toMatchObject({ number: 5000, title: 'Tune 4999' });
  expect(book.slice(tunes[7]!.start, tunes[7]!.end)).toContain('T:Tune 7\n');
});

test('any text is read or refused in a sentence, and never throws', () => {
  const piece = fc.constantFrom(
    ...[
      'X:1\n',
      'K:G\n',
      'M:6/8\n',
      'L:1/3\n',
      'P:A\n',
      'V:2\n',
      '|:',
      ':|',
      '::',
      '[1',
      '|2',
      '(3',
      '(9:9:9',
      '>',
      '<<<',
    ],
    ...[
      'A',
      'b,,',
      "c''",
      '^^f',
      '[CEG]2',
      'z4',
      'Z9',
      '/999',
      '99999',
      '{g}',
      '"G"',
      '-',
      '\n',
      '\\\n',
      '%',
      '[K:D]',
      '&',
      'w:a-b\n',
    ],
  );
  fc.assert(
    fc.property(fc.array(fc.oneof(piece, fc.string({ maxLength: 5 })), { maxLength: 60 }), (pieces) => {
      const { scores, warnings } = readAbc(`X:1\nK:C\n${pieces.join('')}`);
      expect(scores.length + warnings.length).toBeGreaterThan(0);
      for (const score of scores) readingOfScore(score);
    }),
    { numRuns: 500 },
  );
});

describe('parts named in the music (ABC 2.1, section 3.1.9)', () => {
  const partsOf = (text: string) => readAbc(text).scores[0]!.voices[0]!.measures.map(({ part }) => part);

  test('a part named before the first note is the first measure’s', () => {
    expect(partsOf('X:1\nP:AB\nM:4/4\nK:C\nP:A\nCDEF GABc|\nP:B\ncBAG FEDC|\n')).toEqual(['A', 'B']);
  });

  test('a part that begins within a measure begins a measure', () => {
    expect(partsOf('X:1\nM:4/4\nL:1/4\nK:C\nP:A\nCDEF|G\nP:B\nABc|cBAG|\n')).toEqual(['A', null, 'B', null]);
  });
});

// ABC 2.1, section 3.1.8: Q: says how many notes of a length go to the minute
test.each([
  ['M:5/8', 'Q:1/8=200', '2/4', 100],
  ['M:3/8', 'Q:3/8=60', '6/8', 60],
  ['M:12/8', 'Q:3/8=100', '6/8', 100],
  ['M:3/2', 'Q:1/2=90', '2/2', 90],
  ['M:6/8', 'Q:1/8=240', '6/8', 80],
] as const)(
  'the tempo of %s with %s is that of the meter that is clicked',
  (meter, tempo, clicked, beats) => {
    const reading = readingOfScore(readAbc(`X:1\n${meter}\nL:1/8\n${tempo}\nK:G\nGABcde|\n`).scores[0]!);
    expect(reading).toMatchObject({ meter: clicked, tempo: beats });
  },
);
