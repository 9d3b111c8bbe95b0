import { say } from '../../texts/typed-tab';
import { meterShape, type Meter } from '../rhythm/meter';
import { rational, type Rational } from '../rhythm/rational';
import type { Warnings } from './reading';
import type { TypedMeasure } from './typed-tab-measures';
import type { TypedNote } from './typed-tab-notes';

/** How wide the measures of a text are typed. */
export interface TypedWidths {
  /** Columns of padding between a bar line and the first beat. */
  leadIn: number;
  /** Columns of most measures, without the lead-in. */
  usual: number;
  /** Most measures have the usual width, so that another width means another number of beats. */
  regular: boolean;
}

const MOST_LEAD_IN = 3;

export function typedWidths(measures: readonly TypedMeasure[]): TypedWidths {
  const firsts = measures.filter(({ notes }) => notes.length > 0).map(firstColumn);
  const least = firsts.length > 0 ? firsts.reduce((a, b) => Math.min(a, b)) : 0;
  const common = firsts.filter((first) => first === least).length * 3 >= firsts.length;
  const leadIn = common && least <= MOST_LEAD_IN ? least : 0;
  const widths = measures.map(({ width }) => width - leadIn);
  const usual = mostCommon(widths);
  const whole = widths.filter((width) => width * 2 > usual);
  const alike = whole.filter((width) => Math.abs(width - usual) <= 1).length;
  return { leadIn, usual, regular: whole.length > 1 && alike * 2 >= whole.length };
}

/** True when a first measure is a pickup: at most half as wide as the usual ones. */
export function isPickup(measure: TypedMeasure, widths: TypedWidths): boolean {
  return (measure.width - widths.leadIn) * 2 <= widths.usual;
}

/** Beats by width: the meter's own unless the text is typed evenly and this measure is whole steps wider or narrower. */
export function beatsByWidth(
  measure: TypedMeasure,
  widths: TypedWidths,
  meter: Meter,
  step: 0.5 | 1,
): number {
  const { beats } = meterShape(meter);
  if (!widths.regular || Math.abs(measure.width - widths.leadIn - widths.usual) <= 2) return beats;
  const seen = ((measure.width - widths.leadIn) * beats) / widths.usual;
  const whole = Math.max(step, Math.round(seen / step) * step);
  return Math.abs(seen - whole) <= 0.2 ? whole : beats;
}

function firstColumn({ notes }: TypedMeasure): number {
  return notes.reduce((least, { column }) => Math.min(least, column), Infinity);
}

export function leadInOf(measure: TypedMeasure, { leadIn }: TypedWidths): number {
  const first = firstColumn(measure);
  if (measure.dotsInside && first === leadIn + 1) return first;
  return Math.min(first, leadIn);
}

function mostCommon(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  let best = values[0] ?? 1;
  for (const [value, count] of counts) if (count > (counts.get(best) ?? 0)) best = value;
  return Math.max(1, best);
}

/** What the columns of a measure are fitted to. */
export interface SlotGrid {
  slots: number;
  /** Slots of one beat; 3 in meters whose beats are felt in three, where three in a beat are no triplet. */
  perBeat: number;
  leadIn: number;
}

/** Every note with its slot; a slot is halved where the notes stand closer than slots do. */
export function placeNotes(
  measure: TypedMeasure,
  grid: SlotGrid,
  warnings: Warnings,
): { slot: Rational; note: TypedNote }[] {
  const { notes } = measure;
  const single = new Set(notes.filter(({ digits }) => digits === 1).map(({ column }) => column));
  // a number of two digits may be set flush right over one of one digit
  const columnOf = ({ column, digits }: TypedNote) =>
    digits === 2 && !single.has(column) && single.has(column + 1) ? column + 1 : column;
  const columns = [...new Set(notes.map(columnOf))].sort((a, b) => a - b);
  const slots = slotsOf(measure, columns, grid, warnings);
  const slotAt = new Map(columns.map((column, index) => [column, slots[index] ?? ([0, 1] as const)]));
  const taken = new Map<string, number>();
  for (const [column, slot] of slotAt) {
    const key = slot.join('/');
    if (!taken.has(key)) taken.set(key, column);
  }
  return notes.flatMap((note) => {
    const column = columnOf(note);
    const slot = slotAt.get(column) ?? ([0, 1] as const);
    if (taken.get(slot.join('/')) === column) return [{ slot, note }];
    warnings.add(note.line, note.lineColumn, say.tooClose);
    return [];
  });
}

function slotsOf(
  measure: TypedMeasure,
  columns: readonly number[],
  { slots, perBeat, leadIn }: SlotGrid,
  warnings: Warnings,
): Rational[] {
  const width = Math.max(1, measure.width - leadIn);
  const from = columns.map((column) => column - leadIn);
  const threes =
    perBeat === 3
      ? []
      : tripletsIn(
          from,
          measure.triplets.map(({ column }) => column - leadIn),
          width / slots,
          perBeat,
        );
  const inner = new Set(threes.flatMap(({ at }) => [at + 1, at + 2]));
  const outer = from.filter((_, index) => !inner.has(index));
  const { parts, places } = bestFit(outer, width, slots);
  let next = 0;
  const found = from.map((_, index): Rational => {
    if (inner.has(index)) return [0, 1];
    next += 1;
    return rational(places[next - 1] ?? 0, parts);
  });
  for (const { at, span, isMarked } of threes) {
    const [start, units] = found[at] ?? [0, 1];
    for (const step of [1, 2]) found[at + step] = rational(start * 3 + step * span * units, units * 3);
    if (isMarked) continue;
    const column = (columns[at] ?? 0) + measure.column;
    warnings.add(measure.line, column, say.triplet);
  }
  return found;
}

interface Triplet {
  /** Index of its first column. */
  at: number;
  /** In slots. */
  span: number;
  isMarked: boolean;
}

/** Triplets by a `3` over their middle note, or by three columns that share a beat evenly and fit no slots. */
function tripletsIn(
  columns: readonly number[],
  marks: readonly number[],
  cell: number,
  perBeat: number,
): Triplet[] {
  const found: Triplet[] = [];
  for (const mark of marks) {
    const middle = columns.findIndex((column) => column >= mark - 1);
    const [first, second, third] = [columns[middle - 1], columns[middle], columns[middle + 1]];
    if (first === undefined || second === undefined || third === undefined) continue;
    const seen = ((third - first) * 1.5) / cell;
    const span = [1, 2, 4, 8].reduce((best, one) =>
      Math.abs(one - seen) < Math.abs(best - seen) ? one : best,
    );
    found.push({ at: middle - 1, span, isMarked: true });
  }
  const width = cell * perBeat;
  const near = Math.max(0.5, width * 0.045);
  for (let at = 0; at + 2 < columns.length; at += 1) {
    const start = columns[at] ?? 0;
    const beat = Math.round(start / width) * width;
    const isAt = (index: number, share: number) => {
      const off = (columns[index] ?? Infinity) - beat - width * share;
      return Math.abs(off) <= near;
    };
    const isAlone = (columns[at + 3] ?? Infinity) >= beat + width - near;
    const onSlots = [1, 2].every((step) => isNearSlot((columns[at + step] ?? 0) - beat, cell));
    if (Math.abs(start - beat) > 0.5 || !isAlone || onSlots || !isAt(at + 1, 1 / 3) || !isAt(at + 2, 2 / 3))
      continue;
    if (!found.some((one) => Math.abs(one.at - at) < 3)) found.push({ at, span: perBeat, isMarked: false });
  }
  return found;
}

function isNearSlot(column: number, cell: number): boolean {
  return Math.abs(column / cell - Math.round(column / cell)) < 0.2;
}

interface Fit {
  /** 1 for whole slots, 2 for halves. */
  parts: number;
  /** One place for each column, in these slots or halves. */
  places: number[];
}

/** Columns are off by half a character at most, a third of a slot in the narrowest tab that people type. */
const MOST_OFF = 0.34;

/**
 * The grid that the columns fit best. Whole slots are preferred to halves, and the typed width to one with a column or
 * two of padding more or less, unless the columns say otherwise.
 */
function bestFit(columns: readonly number[], width: number, slots: number): Fit {
  let best: Fit = { parts: 1, places: columns.map(() => 0) };
  let least = Infinity;
  for (const parts of [1, 2]) {
    for (const padding of [0, 1, -1, 2, -2]) {
      if (Math.abs(padding) * 4 > width) continue;
      const cell = (width + padding) / (slots * parts);
      const places = columns.map((column) => Math.min(slots * parts - 1, Math.round(column / cell)));
      const off = columns.map((column, index) => Math.abs(column / cell - places[index]!));
      const total = off.reduce((sum, value) => sum + value, 0);
      const clashes = places.filter((place, index) => place === places[index - 1]).length;
      const cost =
        clashes * 10 +
        (off.some((value) => value > MOST_OFF) ? 1 : 0) +
        total / (2 * Math.max(1, columns.length)) +
        Math.abs(padding) * 0.02 +
        (parts - 1) * 0.3;
      if (cost < least) {
        least = cost;
        best = { parts, places };
      }
    }
  }
  return best;
}
