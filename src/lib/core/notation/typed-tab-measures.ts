import { say } from '../../texts/typed-tab';
import type { Rational } from '../rhythm/rational';
import type { StringNumber } from '../tune/tuning';
import type { Warnings } from './reading';
import { SCORE_MEASURES_MAX } from './score';
import type { Beside, BesideSystem } from './typed-tab-beside';
import type { CountWord } from './typed-tab-count';
import type { TabRow } from './typed-tab-lines';
import { notesInCell, type TypedNote } from './typed-tab-notes';

/** Something that stands over or under a measure; its column is counted from 0 at the left bar line. */
interface Placed {
  column: number;
  line: number;
  lineColumn: number;
}

/** A measure as typed: places are columns of text, rhythm comes later. */
export interface TypedMeasure {
  notes: TypedNote[];
  /** Column of the rows' text at which it begins. */
  at: number;
  /** Columns between the bar lines. */
  width: number;
  /** Its lines are dashes parted by spaces: there is no tab for it yet. */
  isBlank: boolean;
  opensRepeat: boolean;
  closesRepeat: boolean;
  /** Ends with a double bar line. */
  closesPart: boolean;
  /** Repeat dots stand inside the measure on some of the lines only. */
  dotsInside: boolean;
  line: number;
  column: number;
  counts: (CountWord & Placed)[];
  lengths: ({ length: Rational } & Placed)[];
  labels: ({ kind: 'chord' | 'word'; text: string } & Placed)[];
  /** A bracket of endings begins here. */
  ending: ({ numbers: readonly number[]; isSaid: boolean } & Placed) | null;
  triplets: Placed[];
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

/** How much of a text may still be read: the most is more than any tune has, and bounds the work that a text can ask for. */
export class TabBudget {
  readonly #warnings: Warnings;
  #measures = SCORE_MEASURES_MAX;
  #notes = 50_000;
  #isTold = false;

  constructor(warnings: Warnings) {
    this.#warnings = warnings;
  }

  spend({ notes }: TypedMeasure): void {
    this.#measures -= 1;
    this.#notes -= notes.length;
  }

  /** Nothing more may be read; told once, at the place where it is first asked. */
  isSpentAt(line: number, column: number): boolean {
    const isSpent = this.#measures <= 0 || this.#notes <= 0;
    if (isSpent && !this.#isTold) {
      this.#warnings.add(line, column, say.tooLong);
      this.#isTold = true;
    }
    return isSpent;
  }
}

/** The measures of one system of five rows, first string first, each with what stands over and under it. */
export function typedMeasures(
  rows: readonly TabRow[],
  beside: BesideSystem,
  warnings: Warnings,
  budget: TabBudget,
): TypedMeasure[] {
  const spans = alignedSpans(rows, warnings);
  const count = Math.max(...spans.map((list) => list.length));
  const measures: TypedMeasure[] = [];
  for (let index = 0; index < count; index += 1) {
    const column = spans.map((list) => list[index] ?? null);
    const wide = column.find((span) => span && span.end - span.start > MOST_COLUMNS);
    if (wide) {
      const at = rows[0]?.column ?? 1;
      warnings.add(rows[0]?.line ?? 1, at + wide.start, say.noBarLine(MOST_COLUMNS));
      continue;
    }
    const row = rows[0];
    if (budget.isSpentAt(row?.line ?? 1, (row?.column ?? 1) + (column[0]?.start ?? 0))) break;
    const measure = typedMeasure(rows, column, warnings);
    budget.spend(measure);
    if (measure.notes.length > 0 || measure.width > 1) measures.push(measure);
  }
  placeBeside(measures, beside, warnings);
  return measures;
}

/** A bracket of endings is drawn from the bar line on, or a column or two before it. */
const ENDING_EARLY = 2;

function placeBeside(measures: readonly TypedMeasure[], beside: BesideSystem, warnings: Warnings): void {
  const place = <What>(
    items: readonly Beside<What>[],
    early: number,
    put: (measure: TypedMeasure, what: What, placed: Placed) => void,
    isTold = true,
  ) => {
    let index = 0;
    let before = -Infinity;
    let told = 0;
    for (const { what, at, line, column } of items) {
      // another line of the same kind begins again at the left
      if (at < before) index = 0;
      before = at;
      while (isPast(measures[index], at, early)) index += 1;
      const measure = measures[index];
      if (measure) put(measure, what, { column: at - measure.at, line, lineColumn: column });
      else if (isTold && measures.length > 0 && told !== line) {
        warnings.add(line, column, say.pastTheLastBar);
        told = line;
      }
    }
  };
  place(beside.counts, 0, (measure, text, placed) => measure.counts.push({ text, ...placed }));
  place(beside.lengths, 0, (measure, length, placed) => measure.lengths.push({ length, ...placed }));
  for (const kind of ['chord', 'word'] as const) {
    const items = kind === 'chord' ? beside.chords : beside.words;
    const put = (measure: TypedMeasure, text: string, placed: Placed) =>
      measure.labels.push({ kind, text, ...placed });
    // words may be a remark that was never meant to stand under notes
    place(items, 0, put, kind === 'chord');
  }
  place(beside.endings, ENDING_EARLY, (measure, ending, placed) => {
    measure.ending = { ...ending, ...placed };
  });
  place(beside.triplets, 0, (measure, _three, placed) => measure.triplets.push(placed));
}

function isPast(measure: TypedMeasure | undefined, at: number, early: number): boolean {
  return measure !== undefined && at >= measure.at + measure.width - Math.min(early, measure.width / 2);
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
    warnings.add(row.line, row.column, say.otherBarLines(list.length, usual));
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
    notes: trimmed.flatMap(({ row, string, start, text }) =>
      notesInCell({ string, text, line: row.line, lineColumn: row.column + start }, warnings),
    ),
    isBlank: trimmed.every(({ text }) => /^-?(?: -)+ ?$/.test(text)),
    at: top.start,
    width: usualWidth(trimmed, spans[0]?.closing !== null, warnings),
    opensRepeat: spans.some((span) => span?.opening?.dotsAfter),
    closesRepeat: spans.some((span) => span?.closing?.dotsBefore),
    closesPart: spans.every((span) => span?.closing && span.closing.end - span.closing.start > 1),
    dotsInside,
    line: top.row.line,
    column: top.row.column + top.start,
    ...{ counts: [], lengths: [], labels: [], ending: null, triplets: [] },
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
    warnings.add(odd.row.line, odd.row.column + odd.start, say.otherWidth(odd.text.length, usual));
  }
  return usual;
}
