import { FRET_MAX } from '../tune/limits';
import type { Technique } from '../tune/strike';
import type { StringNumber } from '../tune/tuning';
import type { Warnings } from './reading';
import type { TabRow } from './typed-tab-lines';

/** A fret number where it was typed. */
export interface TypedNote {
  string: StringNumber;
  fret: number;
  /** From 0 at the left bar line. */
  column: number;
  digits: 1 | 2;
  /** What a mark before the number says. */
  mark: Technique | null;
  line: number;
  /** From 1 on its line. */
  lineColumn: number;
}

/** A measure as typed: places are columns of text, rhythm comes later. */
export interface TypedMeasure {
  notes: TypedNote[];
  /** Columns between the bar lines. */
  width: number;
  opensRepeat: boolean;
  closesRepeat: boolean;
  /** Ends with a double bar line. */
  closesPart: boolean;
  /** Repeat dots stand inside the measure on some of the lines only. */
  dotsInside: boolean;
  line: number;
  column: number;
}

interface Bar {
  /** Of the strokes alone, without repeat dots. */
  start: number;
  end: number;
  dotsBefore: boolean;
  dotsAfter: boolean;
}

interface Span {
  start: number;
  end: number;
  opening: Bar | null;
  closing: Bar | null;
}

interface Cell {
  row: TabRow;
  string: StringNumber;
  start: number;
  text: string;
}

/** Sixteen beats at a generous hand's width; anything wider is no measure of tab. */
const MOST_COLUMNS = 400;
const MARKS: Record<string, Technique> = {
  h: 'hammer-on',
  p: 'pull-off',
  s: 'slide',
  '/': 'slide',
  '\\': 'slide',
};

/** The measures of one system of five rows, first string first. */
export function typedMeasures(rows: readonly TabRow[], warnings: Warnings): TypedMeasure[] {
  const spans = alignedSpans(rows, warnings);
  const count = Math.max(...spans.map((list) => list.length));
  const measures: TypedMeasure[] = [];
  for (let index = 0; index < count; index += 1) {
    const column = spans.map((list) => list[index] ?? null);
    const wide = column.find((span) => span && span.end - span.start > MOST_COLUMNS);
    if (wide) {
      const at = rows[0]?.column ?? 1;
      warnings.add(rows[0]?.line ?? 1, at + wide.start, 'no bar line for 400 columns; left out');
      continue;
    }
    const measure = typedMeasure(rows, column, warnings);
    if (measure.notes.length > 0 || measure.width > 1) measures.push(measure);
  }
  return measures;
}

function barsOf(text: string): Bar[] {
  return [...text.matchAll(/([:*o]?)(\|+)([:*o]?)/g)].map((match) => {
    const start = match.index + (match[1] ?? '').length;
    return {
      start,
      end: start + (match[2] ?? '').length,
      dotsBefore: match[1] !== '',
      dotsAfter: match[3] !== '',
    };
  });
}

function spansOf(text: string, bars: readonly Bar[]): Span[] {
  const spans: Span[] = [];
  let opening: Bar | null = null;
  let start = 0;
  for (const closing of bars) {
    if (/[^\s:*]/.test(text.slice(start, closing.start)) || opening)
      spans.push({ start, end: closing.start, opening, closing });
    opening = closing;
    start = closing.end;
  }
  if (/[-0-9]/.test(text.slice(start))) spans.push({ start, end: text.length, opening, closing: null });
  return spans;
}

/** Every row cut at its own bar lines; a row that counts other bar lines than most is cut where the others are. */
function alignedSpans(rows: readonly TabRow[], warnings: Warnings): Span[][] {
  const spans = rows.map(({ text }) => spansOf(text, barsOf(text)));
  const counts = spans.map(({ length }) => length);
  const votes = (count: number) => counts.filter((other) => other === count).length;
  const usual = Math.max(...counts.filter((count) => votes(count) === Math.max(...counts.map(votes))));
  const model = spans.find(({ length }) => length === usual) ?? [];
  return spans.map((list, index) => {
    const row = rows[index]!;
    if (list.length === usual) return list;
    warnings.add(
      row.line,
      row.column,
      `${list.length} measures on this line, ${usual} on the others; cut where the others are`,
    );
    return model;
  });
}

function typedMeasure(
  rows: readonly TabRow[],
  spans: readonly (Span | null)[],
  warnings: Warnings,
): TypedMeasure {
  const cells = rows.map((row, index): Cell => {
    const span = spans[index];
    const text = span ? row.text.slice(span.start, span.end) : '';
    return { row, string: (index + 1) as StringNumber, start: span?.start ?? 0, text };
  });
  const dotsOutside = cells.every(({ text }) => /^[:*]/.test(text));
  const dotsInside = !dotsOutside && cells.some(({ text }) => /^[:*o]/.test(text));
  const closedDots = cells.every(({ text }) => text.length > 1 && /[:*]$/.test(text));
  const trimmed = cells.map((cell) => ({
    ...cell,
    start: cell.start + (dotsOutside ? 1 : 0),
    text: cell.text.slice(dotsOutside ? 1 : 0, closedDots ? -1 : undefined),
  }));
  const top = trimmed[0]!;
  return {
    notes: trimmed.flatMap((cell) => notesOf(cell, warnings)),
    width: usualWidth(trimmed, spans[0]?.closing !== null, warnings),
    opensRepeat: spans.some((span) => span?.opening?.dotsAfter),
    closesRepeat: spans.some((span) => span?.closing?.dotsBefore),
    closesPart: spans.every((span) => span?.closing && span.closing.end - span.closing.start > 1),
    dotsInside,
    line: top.row.line,
    column: top.row.column + top.start,
  };
}

function usualWidth(cells: readonly Cell[], closed: boolean, warnings: Warnings): number {
  const widths = cells.map(({ text }) => text.length);
  // without a closing bar line the rows end where their writer stopped
  if (!closed) return Math.max(...widths);
  const votes = (width: number) => widths.filter((other) => other === width).length;
  const usual = widths.reduce((best, width) => (votes(width) > votes(best) ? width : best), widths[0] ?? 0);
  const odd = cells.find(({ text }) => text.length !== usual);
  if (odd) {
    const what = `this measure is ${odd.text.length} columns wide here and ${usual} on other lines; look at its rhythm`;
    warnings.add(odd.row.line, odd.row.column + odd.start, what);
  }
  return usual;
}

function notesOf(cell: Cell, warnings: Warnings): TypedNote[] {
  const notes: TypedNote[] = [];
  let mark: { technique: Technique; at: number } | null = null;
  const warn = (at: number, what: string) =>
    warnings.add(cell.row.line, cell.row.column + cell.start + at, what);
  for (const match of cell.text.matchAll(/[0-9]+|[hHpP]|[sS][lL]?|[/\\]|[^-\s0-9:*()~.=]/g)) {
    const found = match[0];
    const technique: Technique | undefined = MARKS[found.charAt(0).toLowerCase()];
    if (/^[0-9]/.test(found)) {
      for (const note of fretsIn(found, match.index, warn)) {
        notes.push({
          ...note,
          string: cell.string,
          mark: mark?.technique ?? null,
          line: cell.row.line,
          lineColumn: cell.row.column + cell.start + note.column,
        });
        mark = null;
      }
    } else if (technique) {
      mark = { technique, at: match.index };
    } else if (found !== 'o') {
      warn(match.index, `“${found}” is not a mark known here; left out`);
    }
  }
  if (mark) warn(mark.at, `no fret number follows this ${mark.technique}; left out`);
  return notes;
}

/** One number of two digits is a fret; anything longer, or beyond the neck, is notes side by side. */
function fretsIn(
  found: string,
  at: number,
  warn: (at: number, what: string) => void,
): { fret: number; column: number; digits: 1 | 2 }[] {
  const together = Number(found);
  if (found.length === 1) return [{ fret: together, column: at, digits: 1 }];
  if (found.length === 2 && !found.startsWith('0')) {
    if (together <= FRET_MAX) return [{ fret: together, column: at, digits: 2 }];
    warn(at, `${found} is beyond the last fret, ${FRET_MAX}; read as ${[...found].join(' and ')}`);
  }
  return [...found].map((digit, index) => ({ fret: Number(digit), column: at + index, digits: 1 }));
}
