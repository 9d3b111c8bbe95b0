import { say } from '../../texts/typed-tab';
import { meterShape, type Meter } from '../rhythm/meter';
import type { Warnings } from './reading';
import { countGrid, type CountUnit } from './typed-tab-count';
import type { TypedMeasure } from './typed-tab-measures';

/**
 * Drops the counts of lines that do not stand under their measures, with a warning for each, and says what the numbers
 * of the others stand for.
 */
export function trustedCounts(
  measures: readonly TypedMeasure[],
  meter: Meter,
  isMeterSaid: boolean,
  warnings: Warnings,
): CountUnit {
  const counted = measures.filter(({ counts }) => counts.length > 0);
  shiftCounts(counted);
  const unit = countUnit(counted, meter, isMeterSaid);
  for (const [line, list] of byLine(counted)) {
    if (list.every((measure, index) => isTrusted(measure, list[index - 1], meter, unit))) continue;
    const column = list[0]?.counts[0]?.lineColumn ?? 1;
    warnings.add(line, column, say.countAstray);
    for (const measure of list) measure.counts = [];
  }
  return unit;
}

function byLine(counted: readonly TypedMeasure[]): Map<number, TypedMeasure[]> {
  const lines = new Map<number, TypedMeasure[]>();
  for (const measure of counted) {
    const line = measure.counts[0]?.line ?? 0;
    const list = lines.get(line) ?? [];
    list.push(measure);
    lines.set(line, list);
  }
  return lines;
}

/** A count goes upwards to the end of a beat, and from 1, but for what comes first or after a repeat sign. */
function isTrusted(
  { counts, width }: TypedMeasure,
  before: TypedMeasure | undefined,
  meter: Meter,
  unit: CountUnit,
): boolean {
  const startsAnew = counts[0]?.text === '1' || !before || before.closesRepeat || before.closesPart;
  // one word says too little to time a measure by, and nothing wrong
  return startsAnew && (counts.length === 1 || countGrid(counts, width, meter, unit) !== null);
}

const FEWEST_NOTES = 6;

/** Moves the counts by a column or two where nearly every note stands beside one and none at one, as when labels were left out. */
function shiftCounts(counted: readonly TypedMeasure[]): void {
  const notes = counted.reduce((sum, measure) => sum + measure.notes.length, 0);
  if (counted.length < 2 || notes < FEWEST_NOTES || hits(counted, 0) > 0) return;
  const begin = (shift: number) =>
    counted.filter(({ notes: some, counts }) =>
      some.some(({ column }) => column === (counts[0]?.column ?? -1) + shift),
    ).length;
  const shift = [1, -1, 2, -2].find(
    (columns) => hits(counted, columns) >= notes * 0.9 && begin(columns) * 2 >= counted.length,
  );
  if (shift === undefined) return;
  for (const measure of counted)
    measure.counts = measure.counts.map((word) => ({ ...word, column: word.column + shift }));
}

function hits(counted: readonly TypedMeasure[], shift: number): number {
  return counted.reduce((sum, { notes, counts }) => {
    const columns = new Set(counts.map(({ column }) => column + shift));
    return sum + notes.filter(({ column }) => columns.has(column)).length;
  }, 0);
}

/** Beats, unless most measures count twice as many, or the six or nine of a compound meter. */
function countUnit(counted: readonly TypedMeasure[], meter: Meter, isMeterSaid: boolean): CountUnit {
  const { beats, division } = meterShape(meter);
  const tops = counted.map(({ counts }) => Math.max(0, ...counts.map(({ text }) => Number(text) || 0)));
  const reaches = (top: number) => tops.filter((one) => one === top).length * 2 > tops.length;
  if (division === 2) return !isMeterSaid && beats === 2 && reaches(4) ? 2 : 1;
  const fits = (unit: CountUnit) =>
    counted.filter(({ counts, width }) => countGrid(counts, width, meter, unit) !== null).length;
  return fits(3) >= fits(1) ? 3 : 1;
}
