import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { NOTATION_BYTES_MAX } from '../../../src/lib/core/notation/notation-file';
import { draftOfReading } from '../../../src/lib/core/notation/reading-draft';
import { readNotationFile } from '../../../src/lib/core/notation/read-file';
import { draftProblems } from '../../../src/lib/core/tune/draft-problems';

const bytesOf = (text: string) => new TextEncoder().encode(text);
const latin = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const DEFAULTS = { title: 'Untitled', meter: '2/4', tuning: [67, 50, 55, 59, 62], goalTempo: 112 } as const;
const OPTIONS = { meter: '2/4', voice: 0 } as const;

function refusal(bytes: Uint8Array, name = ''): string {
  const file = readNotationFile(bytes, name);
  return 'refusal' in file ? file.refusal : `read as ${file.format}`;
}

test.each([
  ['nothing', new Uint8Array(), /empty/],
  ['blank space', bytesOf(' \n\t '), /blank/],
  ['a PDF', latin('%PDF-1.7\n'), /PDF/],
  ['a PNG picture (RFC 2083)', latin('\x89PNG\r\n\x1a\n'), /picture/],
  ['a JPEG picture', latin('\xff\xd8\xff\xe0'), /picture/],
  ['an MP3 recording', latin('ID3\x03'), /recording/],
  ['a WAVE recording', latin('RIFF\x24\0\0\0WAVEfmt '), /recording/],
  ['a gzip archive (RFC 1952)', latin('\x1f\x8b\x08'), /unpack/],
  ['our own backup', bytesOf('{"format":"phrasewright-backup","version":3}'), /Settings/],
  ['a web page', bytesOf('<!doctype html><title>x</title>'), /web page/],
  ['prose', bytesOf('Dear Ada, the tune is lovely.'), /No notation/],
])('%s is refused with a sentence', (_what, bytes, said) => {
  expect(refusal(bytes)).toMatch(said);
});

test('a file larger than the most is not opened', () => {
  expect(refusal(new Uint8Array(NOTATION_BYTES_MAX + 1))).toMatch(/larger than 20 MB/);
});

test('content decides before the name does', () => {
  const tab = readFileSync('tests/fixtures/tab/labelled-two-parts/input.txt');
  for (const name of ['tune.abc', 'tune.mid', 'tune.pdf', '']) {
    const file = readNotationFile(tab, name);
    expect(file).toMatchObject({ format: 'tab', entries: [{ line: 1 }] });
  }
});

test('typed tab is read in full when asked for, in the meter that the learner says', () => {
  const file = readNotationFile(readFileSync('sample-data/tunes/old-joe-clark.txt'), 'old-joe-clark.txt');
  if ('refusal' in file) throw new Error(file.refusal);
  const { reading, voices } = file.read(0, OPTIONS);
  expect(voices).toEqual([]);
  expect(reading.parts.map(({ measures }) => measures.length)).toEqual([8, 8]);
  const draft = draftOfReading(reading, DEFAULTS);
  expect(draft.title).not.toBe('');
  expect(draftProblems(draft)).toEqual([]);
  expect(file.read(1, OPTIONS).reading.warnings).toHaveLength(1);
});

/** Reads everything that a source holds; what comes back is a sentence or tunes. */
function readAll(bytes: Uint8Array, name: string): void {
  const file = readNotationFile(bytes, name);
  if ('refusal' in file) {
    expect(file.refusal).toMatch(/\.$/);
    return;
  }
  expect(file.entries.length).toBeGreaterThan(0);
  for (const index of file.entries.slice(0, 5).keys()) {
    const { reading } = file.read(index, OPTIONS);
    if (reading.parts.length === 0) expect(reading.warnings.length).toBeGreaterThan(0);
    else expect(draftOfReading(reading, DEFAULTS).title.length).toBeLessThanOrEqual(200);
  }
}

const name = fc.constantFrom('', 'a.abc', 'a.xml', 'a.mxl', 'a.mid', 'a.txt', 'a.tab');

test('any bytes give a sentence or tunes', () => {
  const start = fc.constantFrom('', 'MThd', 'PK\x03\x04', '<score-partwise', 'X:1\nK:G\n', '\xff\xfe');
  fc.assert(
    fc.property(start, fc.uint8Array({ maxLength: 400 }), name, (head, rest, called) => {
      readAll(Uint8Array.from([...latin(head), ...rest]), called);
    }),
    { numRuns: 300 },
  );
});

test('fixtures with bytes changed, left out or doubled give a sentence or tunes', () => {
  const folder = 'tests/fixtures/tab';
  const fixtures = readdirSync(folder)
    .filter((entry) => !entry.includes('.'))
    .map((entry) => readFileSync(`${folder}/${entry}/input.txt`));
  const change = fc.record({ at: fc.nat(), by: fc.uint8Array({ maxLength: 3 }), cut: fc.nat(4) });
  fc.assert(
    fc.property(
      fc.constantFrom(...fixtures),
      fc.array(change, { maxLength: 6 }),
      name,
      (bytes, changes, called) => {
        let mutated = [...bytes];
        for (const { at, by, cut } of changes)
          mutated = mutated.toSpliced(at % mutated.length || 0, cut, ...by);
        readAll(Uint8Array.from(mutated), called);
      },
    ),
    { numRuns: 200 },
  );
});
