import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  drawSheet,
  LEAST_FRET,
  setupWords,
  sheetParts,
  signsOn,
  type SheetDrawing,
  type SheetRoom,
} from '../../../src/lib/core/notation/practice-sheet';
import { firstLayer } from '../../../src/lib/core/tune/places';
import type { Tune } from '../../../src/lib/core/tune/tune';
import { madeTune } from './made-tune';
import { strikeAt } from './stretches';

const ROOM: SheetRoom = { width: 700, page: 956, head: 110, notes: 120, heading: 26 };
const draw = (tune: Tune, room = ROOM) => drawSheet(tune, firstLayer(tune).id, room);
const fretOnPaper = ({ layout, scale }: SheetDrawing) => layout.fretSize * scale;
const heightOnPaper = ({ layout, scale, parts }: SheetDrawing, room = ROOM) =>
  room.head + parts.length * room.heading + layout.height * scale + room.notes;

describe('the practice sheet', () => {
  it('has a tune of 16 measures on one page, four measures a line, in numbers as large as a book’s headings', () => {
    const sheet = draw(madeTune('Two parts', 2));
    expect(sheet.pages).toBe(1);
    expect(sheet.parts.map(({ fromLine, toLine }) => [fromLine, toLine])).toEqual([
      [0, 2],
      [2, 4],
    ]);
    expect(fretOnPaper(sheet)).toBeGreaterThanOrEqual(16);
    expect(heightOnPaper(sheet)).toBeLessThanOrEqual(ROOM.page);
  });

  it('has one of 40 measures on one page too, eight measures a line, in numbers that can be read', () => {
    const sheet = draw(madeTune('Five parts', 5));
    expect(sheet.pages).toBe(1);
    expect(sheet.layout.lines).toHaveLength(5);
    expect(fretOnPaper(sheet)).toBeGreaterThanOrEqual(LEAST_FRET);
    expect(heightOnPaper(sheet)).toBeLessThanOrEqual(ROOM.page);
  });

  it('takes a second page before the numbers get too small', () => {
    const sheet = draw(madeTune('Twelve parts', 12));
    expect(sheet.pages).toBe(2);
    expect(fretOnPaper(sheet)).toBeGreaterThanOrEqual(LEAST_FRET);
  });

  it('draws a measure of very many beats as large as the width allows', () => {
    const tune = madeTune('Long', 1);
    const figures = tune.figures.map((figure) => ({ ...figure, beats: 32 }));
    const sheet = draw({ ...tune, figures });
    expect(sheet.layout.lines).toHaveLength(8);
    expect(fretOnPaper(sheet)).toBeLessThan(LEAST_FRET);
  });

  it('never leaves its pages, whatever the tune and the paper', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 8 }),
        fc.constantFrom(0, 0.5, 1),
        fc.integer({ min: 500, max: 1200 }),
        fc.integer({ min: 700, max: 1600 }),
        (parts, pickup, width, page) => {
          const room = { ...ROOM, width, page };
          const sheet = draw(madeTune('Made', parts, pickup), room);
          const printedLine = sheet.layout.lineHeight * sheet.scale;
          expect(sheet.layout.width * sheet.scale).toBeLessThanOrEqual(width + 0.01);
          // at most a line with its heading, or the room for notes, is lost at each foot
          const lost = Math.max(printedLine + room.heading, room.notes);
          expect(heightOnPaper(sheet, room)).toBeLessThanOrEqual(sheet.pages * page);
          expect(heightOnPaper(sheet, room)).toBeGreaterThan((sheet.pages - 1) * (page - lost));
          expect(sheet.layout.measures).toHaveLength(parts * 8 + (pickup > 0 ? 1 : 0));
        },
      ),
      { numRuns: 40 },
    );
  }, 30_000);
});

describe('its parts', () => {
  const said = (form: string) => {
    const tune = { ...madeTune('Three', 3), form };
    return sheetParts(tune, firstLayer(tune).id).map((part) => part.said);
  };

  it('say how often each is played in a row, where that is always the same', () => {
    expect(said('AABBBC')).toEqual(['Part A, twice', 'Part B, three times', 'Part C']);
    expect(said('AABAC')).toEqual(['Part A', 'Part B', 'Part C']);
    expect(said('AAB')).toEqual(['Part A, twice', 'Part B']);
  });

  it('stand between repeat signs, the pickup before them', () => {
    const sheet = draw(madeTune('Two', 2, 1));
    const [first, last] = [sheet.layout.lines[0], sheet.layout.lines[1]];
    const pickup = sheet.layout.measures[0];
    const opens = Number(/^M([\d.]+)/.exec(first?.heavy ?? '')?.[1]);
    expect(opens).toBeCloseTo(pickup?.width ?? 0, 0);
    expect(Number(/^M([\d.]+)/.exec(last?.heavy ?? '')?.[1])).toBeGreaterThan(600);
    // a pickup of one beat in 2/4 is counted 2 (common practice)
    expect(first?.counts.slice(0, 3).map(({ text }) => text)).toEqual(['2', '1', '2']);
    expect(first?.labels.map(({ text }) => text)).toEqual(['A1', 'A2', 'A3', 'A4']);
  });

  it('wear one mark for each figure that is met more than once', () => {
    const sheet = draw(madeTune('Two', 2));
    const [a, b] = sheet.parts.map(({ marks }) => marks);
    expect(a?.[7]).not.toBeNull();
    expect(b?.[0]).toBe(a?.[7]);
  });
});

it('says how the banjo is set up, and nothing that is not known', () => {
  const tune = madeTune('Two', 2);
  expect(setupWords(tune)).toEqual(['gDGBD', 'capo 2', 'fifth string up 2', 'key G', '2/4', 'AABB']);
  expect(setupWords({ ...tune, capo: 0, spike: 0, key: '' })).toEqual(['gDGBD', '2/4', 'AABB']);
});

it('explains the signs that stand on it, and no others', () => {
  const names = (tune: Tune) => signsOn(sheetParts(tune, firstLayer(tune).id)).map(({ name }) => name);
  const tune = madeTune('One', 1);
  expect(names(tune)).toEqual(['drop-thumb', 'hammer-on', 'pull-off', 'brush']);
  const ghost = { ...strikeAt(0, 1, 2), weight: 'ghost' as const };
  const plain = tune.figures.map((figure) => ({ ...figure, strikes: [ghost] }));
  expect(names({ ...tune, figures: plain })).toEqual(['ghost']);
});
