import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ReadingWarning } from '../../../src/lib/core/notation/reading';
import { readTypedTab } from '../../../src/lib/core/notation/typed-tab';
import { slotLength } from '../../../src/lib/core/notation/slots';
import { meterShape } from '../../../src/lib/core/rhythm/meter';
import { multiply, rational } from '../../../src/lib/core/rhythm/rational';
import { describeReading } from './describe-reading';

const FIXTURES = fileURLToPath(new URL('../../fixtures/tab/', import.meta.url));
const folders = readdirSync(FIXTURES, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name);

const isWholeWarning = ({ line, column, message }: ReadingWarning) =>
  line > 0 && column > 0 && message.endsWith('.');
const plain = (measures: string[]) => [0, 1, 2, 3, 4].map((row) => measures[row]).join('\n');
const rows = (top: string) => plain([top, ...Array.from({ length: 4 }, () => top.replace(/\d/g, '-'))]);
const onsetsOf = (text: string, meter: '2/4' | '4/4' | '6/8' = '2/4') =>
  readTypedTab(text, { meter }).parts.map(({ measures }) =>
    measures.map(({ strikes }) => (strikes ?? []).map(({ onset }) => onset.join('/'))),
  );

describe('typed tab from files', () => {
  it('has its fixtures', () => expect(folders.length).toBeGreaterThanOrEqual(8));
  it.each(folders)('%s', (name) => {
    const text = readFileSync(`${FIXTURES}${name}/input.txt`, 'utf8');
    const expected: unknown = JSON.parse(readFileSync(`${FIXTURES}${name}/expected.json`, 'utf8'));
    expect(describeReading(readTypedTab(text, { meter: '2/4' }))).toEqual(expected);
  });
});

describe('rhythm from spacing', () => {
  const rest = (width: number) => `|${'-'.repeat(width)}|`;
  const measure = (top: string) => plain([`|${top}|`, ...Array.from({ length: 4 }, () => rest(top.length))]);

  it('reads padded and unpadded measures alike', () => {
    const even = [[['0/1', '1/8', '1/4', '3/8']]];
    expect(onsetsOf(measure('2-0-1-0-'))).toEqual(even);
    expect(onsetsOf(measure('-2-0-1-0-'))).toEqual(even);
    expect(onsetsOf(measure('-2-0-1-0'))).toEqual(even);
    expect(onsetsOf(measure('--2---0---1---0---'))).toEqual(even);
    expect(onsetsOf(measure('2--0--1--0--'))).toEqual(even);
  });

  it('keeps a rest at the start of one measure when the others begin on the beat', () => {
    const top = '|-2-0-1-0-|---0---0-|-1---1---|';
    const text = plain([top, ...Array.from({ length: 4 }, () => top.replace(/\d/g, '-'))]);
    expect(onsetsOf(text)[0]?.[1]).toEqual(['1/8', '3/8']);
  });

  it('halves the slot where notes stand closer', () => {
    expect(onsetsOf(measure('0---2-020-------'))).toEqual([[['0/1', '1/8', '3/16', '7/32', '1/4']]]);
  });

  it('reads eighths in 4/4 and in 6/8', () => {
    expect(onsetsOf(measure('2-0-1-0-'), '4/4')).toEqual([[['0/1', '1/4', '1/2', '3/4']]]);
    expect(onsetsOf(measure('2---1-0---1-'), '6/8')).toEqual([[['0/1', '1/4', '3/8', '5/8']]]);
  });

  it('takes numbers set flush right for one place', () => {
    const text = plain(['|10------|', '|-0------|', '|--------|', '|--------|', '|---0---0|']);
    const [brush] = readTypedTab(text, { meter: '2/4' }).parts[0]?.measures[0]?.strikes ?? [];
    expect(brush).toMatchObject({ technique: 'brush', fret: 10, string: 1 });
  });

  it('says where a number is beyond the neck', () => {
    const reading = readTypedTab(measure('35--0---'), { meter: '4/4' });
    expect(reading.warnings[0]?.message).toBe(
      'Line 1, column 2: 35 is beyond the last fret, 22; read as 3 and 5.',
    );
  });
});

describe('parts and form', () => {
  it('splits at repeat signs and reads the form from them', () => {
    const reading = readTypedTab(rows('|:0---2---|2---0---:|0---0---|'), { meter: '2/4' });
    expect(reading.form).toBe('AAB');
    expect(reading.parts.map(({ measures }) => measures.length)).toEqual([2, 1]);
  });

  it('splits at double bar lines and guesses that every part is played twice', () => {
    expect(readTypedTab(rows('|0---2---|2---0---||0---0---||'), { meter: '2/4' }).form).toBe('AABB');
  });

  it('names a part that stands there twice anew, and says so', () => {
    const text = `A:\n${rows('|0---2---|')}\nA:\n${rows('|0---3---|')}`;
    const reading = readTypedTab(text, { meter: '2/4' });
    expect(reading.parts.map(({ name }) => name)).toEqual(['A', 'B']);
    expect(reading.warnings[0]?.message).toBe(
      'Line 7, column 1: part A stands here again; this one is read as part B.',
    );
  });

  it('reads text pasted with a blank line after every line', () => {
    expect(onsetsOf(rows('|0---2---|').replace(/\n/g, '\n\n'))).toEqual([[['0/1', '1/4']]]);
  });

  it('ignores what stands after the last bar line, and a ruler under the title', () => {
    const reading = readTypedTab(`My Tune\n-------\n${rows('|0---2---| (twice)')}`, { meter: '2/4' });
    expect(reading).toMatchObject({ title: 'My Tune', warnings: [] });
    expect(reading.parts[0]?.measures).toHaveLength(1);
  });

  it('cuts a line that lacks a bar line where the others are cut', () => {
    const text = plain([
      '|0---2---|2---0---|',
      '|---------|-----|',
      '|--------|--------|',
      '|--------|--------|',
    ]);
    const reading = readTypedTab(`${text}|---0---0----0---0|`, { meter: '2/4' });
    expect(reading.parts[0]?.measures).toHaveLength(2);
    expect(reading.warnings.some(({ line, message }) => line === 5 && /1 measure on/.test(message))).toBe(
      true,
    );
  });
});

describe('texts that are not tab', () => {
  it('says that nothing was found', () => {
    const reading = readTypedTab('Dear friend,\nsee you on Sunday.', { meter: '2/4' });
    expect(reading.parts).toEqual([]);
    expect(reading.warnings[0]?.message).toMatch(/^No tab was found/);
  });

  it('refuses texts beyond any tab', () => {
    expect(readTypedTab('-'.repeat(1_000_001), { meter: '2/4' }).warnings[0]?.message).toMatch(/million/);
    expect(readTypedTab('-\n'.repeat(20_001), { meter: '2/4' }).warnings[0]?.message).toMatch(/20,000/);
  });

  it('reads of a text as much as a tune can have, and says where it ends', () => {
    const measures = (count: number) => rows(`|${'0---2---|'.repeat(count)}`);
    const said = (text: string) =>
      readTypedTab(text, { meter: '2/4' }).warnings.map(({ message }) => message);
    const parts = Array.from({ length: 6 }, (_, index) => `${'ABCDEF'[index]}:\n${measures(400)}`);
    expect(said(parts.slice(0, 5).join('\n\n'))).toEqual([]);
    expect(said(parts.join('\n\n'))).toEqual([
      'Line 37, column 2: this is longer than any tune; what follows is left out.',
    ]);
    const long = readTypedTab(measures(401), { meter: '2/4' });
    expect(long.parts[0]?.measures).toHaveLength(400);
    expect(long.warnings).toMatchObject([{ line: 1, column: 3602 }]);
    expect(long.warnings[0]?.message).toMatch(/part A is longer than 400 measures/);
  });

  it('reads a megabyte of nonsense in linear time', () => {
    const row = '|' + '0-'.repeat(99_000);
    const started = performance.now();
    readTypedTab(Array.from({ length: 5 }, () => row).join('\n'), { meter: '2/4' });
    readTypedTab('?'.repeat(600_000) + '-'.repeat(390_000), { meter: '2/4' });
    readTypedTab('- |'.repeat(330_000), { meter: '2/4' });
    // generous for a busy machine; quadratic time would need minutes
    expect(performance.now() - started).toBeLessThan(15_000);
  }, 60_000);

  it('never throws, whatever the text', () => {
    const tabby = fc.string({
      unit: fc.constantFrom(...'-----------|||::0123459hps/\\o*dgDGBx \t\n\n\r–A'),
      maxLength: 400,
    });
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 300 }), tabby), (text) => {
        for (const meter of ['2/4', '6/8'] as const) {
          const reading = readTypedTab(text, { meter });
          expect(reading.warnings.filter((warning) => !isWholeWarning(warning))).toEqual([]);
        }
      }),
      { numRuns: 300 },
    );
  }, 30_000);

  it('never throws on five ragged lines', () => {
    const line = fc.string({ unit: fc.constantFrom(...'------||:0123h2p '), minLength: 6, maxLength: 60 });
    fc.assert(
      fc.property(fc.array(line, { minLength: 5, maxLength: 5 }), (lines) => {
        const reading = readTypedTab(lines.map((text) => `|-${text}`).join('\n'), { meter: '2/4' });
        const shape = meterShape('2/4');
        for (const { beats, strikes } of reading.parts.flatMap(({ measures }) => measures)) {
          const end = beats * (shape.beat[0] / shape.beat[1]);
          for (const { onset, duration } of strikes ?? []) {
            expect(duration[0]).toBeGreaterThan(0);
            expect(onset[0] / onset[1] + duration[0] / duration[1]).toBeLessThanOrEqual(end);
          }
        }
      }),
      { numRuns: 150 },
    );
  }, 30_000);
});

/** A measure as a list of eight slots, each empty or one note; typed with any padding and any width of slot. */
describe('what was typed reads back', () => {
  const note = fc.record({ string: fc.integer({ min: 1, max: 5 }), fret: fc.integer({ min: 0, max: 9 }) });
  const later = fc.array(fc.option(note, { freq: 2 }), { minLength: 7, maxLength: 7 });
  const measure = fc.tuple(note, later).map(([first, others]) => [first, ...others]);

  const typed = (
    measures: readonly (readonly ({ string: number; fret: number } | null)[])[],
    cell: number,
    lead: number,
  ) =>
    [1, 2, 3, 4, 5]
      .map((string) =>
        measures
          .map((slots) => {
            const cells = slots.map((slot) =>
              (slot?.string === string ? String(slot.fret) : '-').padEnd(cell, '-'),
            );
            return `|${'-'.repeat(lead)}${cells.join('')}`;
          })
          .join(''),
      )
      .map((row) => `${row}|`)
      .join('\n');

  it('for one note a slot', () => {
    fc.assert(
      fc.property(
        fc.array(measure, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 2, max: 4 }),
        fc.integer({ min: 0, max: 2 }),
        fc.constantFrom('2/4' as const, '4/4' as const, '2/2' as const),
        (measures, cell, lead, meter) => {
          const reading = readTypedTab(typed(measures, cell, lead), { meter });
          expect(reading.warnings).toEqual([]);
          const found = reading.parts.flatMap((part) => part.measures.map(({ strikes }) => strikes ?? []));
          const wanted = measures.map((slots) =>
            slots.flatMap((slot, index) =>
              slot ? [{ ...slot, onset: multiply(rational(index), slotLength(meter)) }] : [],
            ),
          );
          expect(
            found.map((list) => list.map(({ string, fret, onset }) => ({ string, fret, onset }))),
          ).toEqual(wanted);
        },
      ),
      { numRuns: 150 },
    );
  }, 30_000);
});
