import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { add, compare, divide, equal, multiply, subtract, toNumber, type Rational } from '../rhythm/rational';
import type { Strike, Technique } from '../tune/strike';
import type { MeasureLabel } from '../tune/tune';
import type { StringNumber } from '../tune/tuning';
import { noteValue } from './note-values';
import { slotsPerBeat } from './slots';
import { columnOnGrid, countedPlaces, countGrid, placeOnGrid, type CountGrid } from './typed-tab-count';
import { letterOf } from './typed-tab-letters';
import { usualTechnique } from './typed-tab-strikes';

/** A measure, or the end of one that a pickup is. */
export interface MeasureToWrite {
  /** In beats from the start of a whole measure: more than 0 for a pickup. */
  from: Rational;
  to: Rational;
  strikes: readonly Strike[] | null;
  labels: readonly MeasureLabel[];
}

/** Something over or under a measure, at a column from 0 at the left bar line. */
export interface WrittenWord {
  text: string;
  column: number;
}

/** What stands between two bar lines. */
export interface WrittenMeasure {
  /** Five texts of one width, first string first. */
  rows: readonly string[];
  count: readonly WrittenWord[];
  /** Note values, where the tab alone would say another length. */
  letters: readonly WrittenWord[];
  chords: readonly WrittenWord[];
  words: readonly WrittenWord[];
  /** There is tab, and no columns that tell its rhythm. */
  isTooFine: boolean;
}

/** A number with its marks, as it is typed. */
interface TypedFret {
  string: StringNumber;
  onset: Rational;
  before: string;
  fret: string;
  after: string;
}

const STRINGS: readonly StringNumber[] = [1, 2, 3, 4, 5];
/** Columns of a slot, from the width that people type. */
const CELLS = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 15, 16, 18, 20, 24, 28, 30, 32, 40, 48];
const WIDTH_MAX = 400;
/** How many times wider a measure may get for its words. */
const SPREAD_MAX = 3;
const LETTERS: Readonly<Record<Technique, string>> = {
  strike: 'm',
  brush: 'br',
  drone: 't',
  'drop-thumb': 'd',
  'hammer-on': 'h',
  'pull-off': 'p',
  slide: 's',
  tie: '~',
};
/** A brush goes on to the next two long strings, open. */
const BRUSH_REACH = 2;

/** A measure with as few columns as tell where everything in it sounds, or somewhat more where its words ask for them. */
export function writtenMeasure(measure: MeasureToWrite, meter: Meter): WrittenMeasure {
  const frets = typedFrets(measure.strikes ?? [], meter);
  const letters = lettersOf(measure, meter);
  const lead =
    1 + Math.max(0, ...frets.filter(({ onset }) => onset[0] === 0).map(({ before }) => before.length));
  let narrowest: CountGrid | null = null;
  for (const cell of CELLS) {
    const grid = gridOf(measure, meter, cell, lead);
    if (!grid || !isTold(measure, frets, letters, grid, meter)) continue;
    narrowest ??= grid;
    if (grid.width > narrowest.width * SPREAD_MAX) break;
    if (areLabelsApart(measure, grid, meter)) return typed(measure, frets, letters, grid, meter);
  }
  if (narrowest) return typed(measure, frets, letters, narrowest, meter);
  const bare = { ...measure, strikes: null, labels: [] };
  const grid = gridOf(bare, meter, CELLS[0] ?? 2, 1);
  if (!grid) throw new Error('A measure is at least half a beat long');
  return { ...typed(bare, [], [], grid, meter), isTooFine: measure.strikes !== null };
}

/** Chords, and words, find room on one line each. */
function areLabelsApart(measure: MeasureToWrite, grid: CountGrid, meter: Meter): boolean {
  return (['chord', 'word'] as const).every((kind) => {
    let free = 0;
    return measure.labels.every((label) => {
      if (label.kind !== kind) return true;
      const column = columnOnGrid(grid, placeOf(measure, label.onset, meter));
      const isFree = column >= free;
      free = column + label.text.length + 1;
      return isFree && free <= grid.width + 2;
    });
  });
}

function gridOf({ from, to }: MeasureToWrite, meter: Meter, cell: number, lead: number): CountGrid | null {
  const slots = (place: Rational) => toNumber(subtract(place, from)) * slotsPerBeat(meter) * cell;
  const words = countedPlaces(meter, from, to).map(({ text, place }) => ({
    text,
    column: lead + slots(place),
  }));
  const width = lead + slots(to);
  if (![width, ...words.map(({ column }) => column)].every(Number.isInteger)) return null;
  const isTight = words.some(({ text, column }, index) => {
    const next = words[index + 1];
    return next !== undefined && next.column - column <= text.length;
  });
  const grid = isTight ? null : countGrid(words, width, meter, meterShape(meter).division === 3 ? 3 : 1);
  return grid && equal(grid.end, to) && width <= WIDTH_MAX ? grid : null;
}

/** The place, in beats from the start of a whole measure, of an onset. */
function placeOf({ from }: MeasureToWrite, onset: Rational, meter: Meter): Rational {
  return add(from, divide(onset, meterShape(meter).beat));
}

/** Every place is read back from its column, and nothing touches what stands beside it. */
function isTold(
  measure: MeasureToWrite,
  frets: readonly TypedFret[],
  letters: readonly { onset: Rational; text: string }[],
  grid: CountGrid,
  meter: Meter,
): boolean {
  const columnOf = (onset: Rational) => columnOnGrid(grid, placeOf(measure, onset, meter));
  const isExact = ({ onset }: { onset: Rational }) => {
    const place = placeOf(measure, onset, meter);
    return equal(placeOnGrid(grid, columnOnGrid(grid, place)), place);
  };
  if (![...frets, ...measure.labels.filter(({ onset }) => isInside(measure, onset, meter))].every(isExact))
    return false;
  const counted = new Set(grid.marks.map(({ column }) => column));
  // a number of two digits is taken for one set flush right when its second digit stands at a count
  const isShifted = ({ onset, fret }: TypedFret) =>
    fret.length === 2 && !counted.has(columnOf(onset)) && counted.has(columnOf(onset) + 1);
  if (frets.some(isShifted)) return false;
  const areApart = STRINGS.every((string) => {
    let free = 0;
    for (const { onset, before, fret, after } of frets.filter((one) => one.string === string)) {
      const column = columnOf(onset);
      if (column - before.length < free) return false;
      free = column + fret.length + after.length + (after === '' ? 1 : 0);
      if (column + fret.length + after.length > grid.width) return false;
    }
    return true;
  });
  return (
    areApart &&
    letters.every(({ onset, text }, index) => {
      const next = letters[index + 1];
      return !next || columnOf(next.onset) - columnOf(onset) > text.length;
    })
  );
}

function isInside({ from, to }: MeasureToWrite, onset: Rational, meter: Meter): boolean {
  return compare(divide(onset, meterShape(meter).beat), subtract(to, from)) < 0;
}

function typed(
  measure: MeasureToWrite,
  frets: readonly TypedFret[],
  letters: readonly { onset: Rational; text: string }[],
  grid: CountGrid,
  meter: Meter,
): WrittenMeasure {
  const columnOf = (onset: Rational) => columnOnGrid(grid, placeOf(measure, onset, meter));
  const empty = measure.strikes ? '-'.repeat(grid.width) : '- '.repeat(grid.width).slice(0, grid.width);
  const rows = STRINGS.map((string) => {
    let row = empty;
    for (const { onset, before, fret, after } of frets.filter((one) => one.string === string)) {
      const text = before + fret + after;
      const at = columnOf(onset) - before.length;
      row = row.slice(0, at) + text + row.slice(at + text.length);
    }
    return row;
  });
  const counts = countedPlaces(meter, measure.from, measure.to);
  const labels = measure.labels.filter(({ onset }) => isInside(measure, onset, meter));
  const placed = (kind: MeasureLabel['kind']) =>
    labels.filter((one) => one.kind === kind).map(({ onset, text }) => ({ text, column: columnOf(onset) }));
  return {
    rows,
    count: counts.map(({ text, place }) => ({ text, column: columnOnGrid(grid, place) })),
    letters: letters.map(({ onset, text }) => ({ text, column: columnOf(onset) })),
    chords: placed('chord'),
    words: placed('word'),
    isTooFine: false,
  };
}

function chordsOf(strikes: readonly Strike[]): Strike[][] {
  const chords: Strike[][] = [];
  for (const strike of strikes) {
    const last = chords.at(-1);
    if (last?.[0] && equal(last[0].onset, strike.onset)) last.push(strike);
    else chords.push([strike]);
  }
  return chords;
}

/** The numbers of a measure in the order of their onsets. Two strikes of one string at once cannot both be typed. */
function typedFrets(strikes: readonly Strike[], meter: Meter): TypedFret[] {
  return chordsOf(strikes).flatMap((chord) => {
    const sounded = chord.filter(
      (one, index) => chord.findIndex(({ string }) => string === one.string) === index,
    );
    const taken = new Set(sounded.map(({ string }) => string));
    const long = sounded.filter(({ string }) => string < 5);
    return sounded.flatMap((strike) => {
      const open = strike.technique === 'brush' ? openStrings(strike, taken) : [];
      const isAlone = strike.string === 5 || long.length === 1;
      return [typedFret(strike, isUnderstood(strike, open.length, isAlone, meter)), ...open];
    });
  });
}

function isUnderstood(
  { technique, string, onset }: Strike,
  open: number,
  isAlone: boolean,
  meter: Meter,
): boolean {
  return technique === 'brush' ? open > 0 : isAlone && usualTechnique(string, onset, meter) === technique;
}

function typedFret({ string, onset, fret, technique, weight }: Strike, isUnderstood: boolean): TypedFret {
  const mark = isUnderstood ? '' : LETTERS[technique];
  const sign = weight === 'ghost' ? '(' : weight === 'accent' ? '>' : '';
  return { string, onset, before: sign + mark, fret: String(fret), after: weight === 'ghost' ? ')' : '' };
}

/** The open strings that a brush goes on to, as far as nothing else sounds on them. */
function openStrings({ string, onset }: Strike, taken: ReadonlySet<StringNumber>): TypedFret[] {
  return STRINGS.filter(
    (other) => other > string && other <= Math.min(4, string + BRUSH_REACH) && !taken.has(other),
  ).map((other) => ({ string: other, onset, before: '', fret: '0', after: '' }));
}

/**
 * The note values over the strikes, where one of them does not last until the next and every one is a value of its own; else none.
 */
function lettersOf({ from, to, strikes }: MeasureToWrite, meter: Meter): { onset: Rational; text: string }[] {
  const end = multiply(subtract(to, from), meterShape(meter).beat);
  const chords = chordsOf(strikes ?? []);
  const lengths = chords.map((chord, index) => {
    const implied = subtract(chords[index + 1]?.[0]?.onset ?? end, chord[0]?.onset ?? end);
    const left = subtract(end, chord[0]?.onset ?? end);
    const length = chord[0]?.duration ?? implied;
    return { implied, length: compare(length, left) > 0 ? left : length, onset: chord[0]?.onset ?? end };
  });
  if (lengths.every(({ implied, length }) => equal(implied, length))) return [];
  const texts = lengths.map(({ length, onset }) => {
    const value = noteValue(length);
    return { onset, text: value && letterOf(value) };
  });
  return texts.every((one): one is { onset: Rational; text: string } => one.text !== null) ? texts : [];
}

/** A whole measure of the tune. */
export function wholeMeasure(
  beats: number,
  strikes: readonly Strike[] | null,
  labels: readonly MeasureLabel[],
  meter: Meter,
): MeasureToWrite {
  const to = divide(beatsToWholeNotes(meter, beats), meterShape(meter).beat);
  return { from: [0, 1], to, strikes, labels };
}
