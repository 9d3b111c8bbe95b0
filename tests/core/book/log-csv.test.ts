import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LogCsv } from '../../../src/lib/core/book/log-csv';
import type { SealedSitting } from '../../../src/lib/core/practice/records';
import type { Tune } from '../../../src/lib/core/tune/tune';
import { EVENING, idOf, pass, someBook, START, WINTER_TUNE } from './made-up-books';

/** Row by row, each a record by its column. */
function readBack(text: string): Record<string, string>[] {
  // reference: csv-parse, by RFC 4180, told nothing but that there is a header
  return parse(text, { columns: true, record_delimiter: '\r\n' });
}

function written(sittings: readonly SealedSitting[], tunes: readonly Tune[] = [WINTER_TUNE]): string {
  const csv = new LogCsv(tunes);
  return csv.header() + sittings.map((sitting) => csv.lines(sitting)).join('');
}

const someText = fc.string({
  unit: fc.constantFrom('a', ' ', ',', '"', '\n', '\r', ';', '=', '+', '-', '@', '\t', 'é', '♯', "'"),
});
/** What a reader has to take off again. */
const bare = (text: string): string => text.replace(/^'(?='*[=+\-@\t\r])/, '');

describe('the log as comma-separated values', () => {
  test('tells of each pass what the book knows', () => {
    const rows = readBack(written([EVENING]));
    expect(rows).toEqual([
      {
        time: '2026-03-01T20:01:50+01:00',
        tune: 'The Miller’s Late Supper',
        passage: 'Measure 1, part A',
        layer: '',
        tempo: '66',
        outcome: 'clean',
        'from memory': 'no',
        'went wrong in measure': '',
        climb: 'steady',
        'sitting began': '2026-03-01T20:00:00+01:00',
        minutes: '20',
        tuning: 'gDGCD',
        hands: 'fresh',
        note: 'Slow, and even for once.',
      },
      expect.objectContaining({ tempo: '68', outcome: 'clean', minutes: '', note: '' }),
    ]);
  });

  // reference: the ECMAScript reading of ISO 8601 with an offset
  test('writes moments that read back as the same instant, on either side of Greenwich', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4_000_000_000 }),
        fc.integer({ min: -720, max: 840 }),
        (sec, offsetMin) => {
          const at = sec * 1000;
          const [row] = readBack(written([{ ...EVENING, log: [{ ...pass(110, 101), at, offsetMin }] }]));
          expect(Date.parse(row!['time']!)).toBe(at);
          expect(row!['time']).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/);
        },
      ),
    );
  });

  test('reads back with any text in a title, a layer and a note', () => {
    fc.assert(
      fc.property(someText, someText, someText, (title, name, note) => {
        const tune = { ...WINTER_TUNE, title, layers: [{ ...WINTER_TUNE.layers[0]!, name }] };
        const whole = { kind: 'tune' as const, tuneId: tune.id, layerId: tune.layers[0]!.id };
        const drills = EVENING.drills.map((drill) => ({ ...drill, passage: whole }));
        const [row, ...more] = readBack(written([{ ...EVENING, drills, note }], [tune]));
        expect([row!['tune'], row!['layer'], row!['note']].map((cell) => bare(cell!))).toEqual([
          title,
          name,
          note,
        ]);
        expect(row!['passage']).toBe('The whole tune');
        expect(more).toHaveLength(1);
      }),
      { numRuns: 300 },
    );
  });

  // the characters that spreadsheets take for the start of a formula: OWASP, "CSV Injection" (list from memory)
  test('lets no cell begin as a formula', () => {
    fc.assert(
      fc.property(fc.constantFrom('=', '+', '-', '@', '\t', '\r'), someText, (first, rest) => {
        const tune = { ...WINTER_TUNE, title: first + rest };
        const [row] = readBack(written([{ ...EVENING, note: first }], [tune]));
        expect(row!['tune']).toBe(`'${first}${rest}`);
        expect(row!['note']).toBe(`'${first}`);
      }),
    );
  });

  test('has one line a pass, every line ended, for any book', () => {
    fc.assert(
      fc.property(someBook, ({ sittings, tunes }) => {
        const text = written(sittings, tunes);
        const passes = sittings.flatMap(({ log }) => log.filter(({ kind }) => kind === 'pass'));
        expect(readBack(text)).toHaveLength(passes.length);
        expect(text.endsWith('\r\n')).toBe(true);
      }),
    );
  });

  test('says so of a pass taken out, a place of trouble, and a tune that is gone', () => {
    const miss = { ...pass(110, 101, 80, 'stumbled'), missAt: 2 };
    const out = {
      kind: 'correction' as const,
      id: idOf(112),
      drillId: idOf(101),
      passId: idOf(111),
      outcome: 'unmarked' as const,
    };
    const log = [miss, pass(111, 101), { ...out, at: START, offsetMin: 0 }];
    const rows = readBack(written([{ ...EVENING, log, tuning: null }], []));
    expect(rows.map((row) => [row['outcome'], row['went wrong in measure'], row['tuning']])).toEqual([
      ['stumbled', '3', ''],
      ['unmarked', '', ''],
    ]);
    expect(rows[0]).toMatchObject({ tune: 'A tune no longer in the book', passage: '', layer: '' });
  });
});
