import { say } from '../../texts/typed-tab';
import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import {
  add,
  compare,
  divide,
  equal,
  multiply,
  rational,
  subtract,
  toNumber,
  ZERO,
  type Rational,
} from '../rhythm/rational';
import { LABEL_MAX, LABELS_MAX } from '../tune/limits';
import type { Strike } from '../tune/strike';
import type { MeasureLabel, Pickup } from '../tune/tune';
import type { Warnings } from './reading';
import { slotLength, slotsPerBeat } from './slots';
import { countGrid, placeOnGrid, type CountGrid, type CountUnit } from './typed-tab-count';
import { onsetsOf } from './typed-tab-letters';
import type { TypedMeasure } from './typed-tab-measures';
import type { TypedNote } from './typed-tab-notes';
import { beatsByWidth, leadInOf, placeNotes, type TypedWidths } from './typed-tab-spacing';
import { strikesAt } from './typed-tab-strikes';

/** A measure with its rhythm. */
export interface TimedMeasure {
  beats: number;
  /** `null` where there is no tab yet. */
  strikes: Strike[] | null;
  labels?: MeasureLabel[];
  /** Its beats are counted or lettered, not guessed from its width. */
  isSure: boolean;
}

/** What the measures of one text are timed by. */
export interface Timing {
  meter: Meter;
  widths: TypedWidths;
  unit: CountUnit;
  warnings: Warnings;
}

/** Where everything of a measure is, in whole notes from its start. */
interface Rhythm {
  beats: number;
  isSure: boolean;
  notes: { onset: Rational; note: TypedNote }[];
  placeOf: (column: number) => Rational;
}

/** A measure by its count, else by its rhythm letters, else by how it is spaced. */
export function timedMeasure(measure: TypedMeasure, step: 0.5 | 1, timing: Timing): TimedMeasure {
  const rhythm =
    countedRhythm(measure, timing) ?? letteredRhythm(measure, timing) ?? spacedRhythm(measure, step, timing);
  return timedBy(measure, rhythm, timing);
}

function timedBy(
  measure: TypedMeasure,
  { beats, isSure, notes, placeOf }: Rhythm,
  timing: Timing,
): TimedMeasure {
  const end = beatsToWholeNotes(timing.meter, beats);
  const inside = notes.filter(({ onset }) => compare(onset, end) < 0);
  const strikes = measure.isBlank
    ? null
    : strikesAt(inside, end, timing.meter, timing.warnings).map((strike) =>
        lasting(strike, lengthOver(measure, inside, strike), end),
      );
  const labels = labelsOf(measure, placeOf, end);
  return { beats, isSure, strikes, ...(labels.length > 0 && { labels }) };
}

/** A pickup: its notes end where the first full measure begins. */
export function timedPickup(measure: TypedMeasure, timing: Timing): Pickup {
  const counted = countedRhythm(measure, timing) ?? letteredRhythm(measure, timing);
  if (counted) {
    const { beats, strikes } = timedBy(measure, counted, timing);
    return { beats, strikes };
  }
  const { meter, widths, warnings } = timing;
  const perBeat = slotsPerBeat(meter);
  const leadIn = leadInOf(measure, widths);
  const cell = widths.usual / (meterShape(meter).beats * perBeat);
  const slots = Math.max(1, Math.round((measure.width - leadIn) / cell));
  const beats = Math.ceil((slots * 2) / perBeat) / 2;
  const length = beatsToWholeNotes(meter, beats);
  const early = subtract(length, multiply(rational(slots), slotLength(meter)));
  const notes = placeNotes(measure, { slots, perBeat: slotsOfBeat(meter), leadIn }, warnings).map(
    ({ slot, note }) => ({ onset: add(early, multiply(slot, slotLength(meter))), note }),
  );
  const strikes = measure.isBlank ? null : strikesAt(notes, length, meter, warnings);
  return { beats, strikes };
}

/** Two half measures on either side of a repeat sign, as the one measure that they are. */
export function joinedMeasure(first: TimedMeasure, second: TimedMeasure, meter: Meter): TimedMeasure {
  const middle = beatsToWholeNotes(meter, first.beats);
  const moved = <Item extends { onset: Rational }>(item: Item): Item => ({
    ...item,
    onset: add(item.onset, middle),
  });
  const labels = [...(first.labels ?? []), ...(second.labels ?? []).map(moved)];
  return {
    beats: first.beats + second.beats,
    isSure: false,
    strikes: [...(first.strikes ?? []), ...(second.strikes ?? []).map(moved)],
    ...(labels.length > 0 && { labels }),
  };
}

/** The grid of a measure that is counted, `null` for one that is not. */
export function gridOf({ counts, width }: TypedMeasure, { meter, unit }: Timing): CountGrid | null {
  return counts.length > 1 ? countGrid(counts, width, meter, unit) : null;
}

function countedRhythm(measure: TypedMeasure, timing: Timing): Rhythm | null {
  const grid = gridOf(measure, timing);
  const first = grid?.marks[0]?.place;
  if (!grid || !first) return null;
  const { beat } = meterShape(timing.meter);
  const length = toNumber(subtract(grid.end, first));
  const beats = Math.ceil(length * 2) / 2;
  // the notes of a cut measure end at its bar line
  const start = subtract(grid.end, rational(beats * 2, 2));
  const counted = new Set(grid.marks.map(({ column }) => column));
  const placeOf = (column: number) => multiply(subtract(placeOnGrid(grid, column), start), beat);
  const notes = measure.notes.map((note) => {
    const { column, digits } = note;
    const isFlushRight = digits === 2 && !counted.has(column) && counted.has(column + 1);
    return { onset: placeOf(isFlushRight ? column + 1 : column), note };
  });
  return { beats, isSure: true, notes, placeOf };
}

function letteredRhythm(measure: TypedMeasure, { meter, warnings }: Timing): Rhythm | null {
  const { lengths, notes } = measure;
  const first = lengths[0];
  if (!first) return null;
  const warn = (what: string) => warnings.add(first.line, first.lineColumn, what);
  const { onsets, end } = onsetsOf(lengths.map(({ length }) => length));
  const halves = divide(end, multiply(meterShape(meter).beat, [1, 2]));
  if (halves[1] !== 1) return (warn(say.lettersNotBeats), null);
  const onsetAt = (column: number) => {
    const letter = nearestLength(lengths, column);
    return letter ? onsets[lengths.indexOf(letter)] : undefined;
  };
  const placed = notes.flatMap((note) => {
    const onset = onsetAt(note.column);
    return onset ? [{ onset, note }] : [];
  });
  if (placed.length < notes.length) return (warn(say.letterMissing), null);
  const beats = halves[0] / 2;
  if (beats !== meterShape(meter).beats) warn(say.lettersSum(beats));
  return { beats, isSure: true, notes: placed, placeOf: (column) => onsetAt(column) ?? ZERO };
}

function spacedRhythm(measure: TypedMeasure, step: 0.5 | 1, { meter, widths, warnings }: Timing): Rhythm {
  const beats = beatsByWidth(measure, widths, meter, step);
  const slots = Math.max(1, Math.round(beats * slotsPerBeat(meter)));
  const leadIn = leadInOf(measure, widths);
  const notes = placeNotes(measure, { slots, perBeat: slotsOfBeat(meter), leadIn }, warnings).map(
    ({ slot, note }) => ({ onset: multiply(slot, slotLength(meter)), note }),
  );
  const cell = Math.max(1, measure.width - leadIn) / slots;
  const placeOf = (column: number) => {
    const near = notes.find(({ note }) => Math.abs(note.column - column) <= 1);
    const slot = Math.min(slots - 1, Math.max(0, Math.round((column - leadIn) / cell)));
    return near?.onset ?? multiply(rational(slot), slotLength(meter));
  };
  return { beats, isSure: false, notes, placeOf };
}

/** Slots of a beat as far as triplets go: 3 where a beat is felt in three. */
function slotsOfBeat(meter: Meter): number {
  return meterShape(meter).division === 3 ? 3 : slotsPerBeat(meter);
}

/** The note value lettered over a strike, `null` where none is. */
function lengthOver(
  { lengths }: TypedMeasure,
  notes: Rhythm['notes'],
  { onset, string }: Strike,
): Rational | null {
  const typed = notes.find((one) => one.note.string === string && equal(one.onset, onset));
  return typed ? (nearestLength(lengths, typed.note.column)?.length ?? null) : null;
}

/** The letter over a column, or over the one beside it. */
function nearestLength(
  lengths: TypedMeasure['lengths'],
  column: number,
): TypedMeasure['lengths'][number] | null {
  const off = (letter: { column: number }) => Math.abs(letter.column - column);
  return lengths.find((letter) => off(letter) === 0) ?? lengths.find((letter) => off(letter) === 1) ?? null;
}

function lasting(strike: Strike, length: Rational | null, end: Rational): Strike {
  if (!length) return strike;
  const left = subtract(end, strike.onset);
  return { ...strike, duration: compare(length, left) > 0 ? left : length };
}

/** Chords and words by their places. Words that stand under nothing are a remark. */
function labelsOf(
  { labels, notes, counts }: TypedMeasure,
  placeOf: (column: number) => Rational,
  end: Rational,
): MeasureLabel[] {
  const columns = new Set([...notes, ...counts].map(({ column }) => column));
  const words = labels.filter(({ kind }) => kind === 'word');
  const isRemark = words.filter(({ column }) => columns.has(column)).length * 2 < words.length;
  return labels
    .filter(({ kind }) => kind === 'chord' || !isRemark)
    .slice(0, LABELS_MAX)
    .map(({ kind, text, column }) => ({
      onset: placeOf(Math.max(0, column)),
      kind,
      text: text.slice(0, LABEL_MAX),
    }))
    .filter(({ onset }) => compare(onset, end) < 0)
    .sort((a, b) => compare(a.onset, b.onset));
}
