import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { add, multiply, rational, subtract, type Rational } from '../rhythm/rational';
import { compareStrikes, type Strike, type Technique } from '../tune/strike';
import type { Pickup } from '../tune/tune';
import type { Warnings } from './reading';
import { inSlots, slotLength, slotsPerBeat } from './slots';
import type { TypedMeasure, TypedNote } from './typed-tab-measures';

/** A measure with its rhythm. */
export interface TimedMeasure {
  beats: number;
  strikes: Strike[];
}

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

/** The strikes of a measure, each at the slot nearest to where it was typed. */
export function timedMeasure(
  measure: TypedMeasure,
  beats: number,
  widths: TypedWidths,
  meter: Meter,
  warnings: Warnings,
): TimedMeasure {
  const slots = Math.max(1, Math.round(beats * slotsPerBeat(meter)));
  const placed = placeNotes(measure, slots, leadInOf(measure, widths), warnings);
  const onsets = placed.map(({ slot, note }) => ({ onset: multiply(slot, slotLength(meter)), note }));
  return { beats, strikes: strikesAt(onsets, beatsToWholeNotes(meter, beats), meter, warnings) };
}

/** A pickup: its notes end where the first full measure begins. */
export function timedPickup(
  measure: TypedMeasure,
  widths: TypedWidths,
  meter: Meter,
  warnings: Warnings,
): Pickup {
  const perBeat = slotsPerBeat(meter);
  const leadIn = leadInOf(measure, widths);
  const cell = widths.usual / (meterShape(meter).beats * perBeat);
  const slots = Math.max(1, Math.round((measure.width - leadIn) / cell));
  const beats = Math.ceil((slots * 2) / perBeat) / 2;
  const length = beatsToWholeNotes(meter, beats);
  const early = subtract(length, multiply(rational(slots), slotLength(meter)));
  const onsets = placeNotes(measure, slots, leadIn, warnings).map(({ slot, note }) => ({
    onset: add(early, multiply(slot, slotLength(meter))),
    note,
  }));
  return { beats, strikes: strikesAt(onsets, length, meter, warnings) };
}

/** Two half measures on either side of a repeat sign, as the one measure that they are. */
export function joinedMeasure(first: TimedMeasure, second: TimedMeasure, meter: Meter): TimedMeasure {
  const middle = beatsToWholeNotes(meter, first.beats);
  const later = second.strikes.map((strike) => ({ ...strike, onset: add(strike.onset, middle) }));
  return { beats: first.beats + second.beats, strikes: [...first.strikes, ...later] };
}

function firstColumn({ notes }: TypedMeasure): number {
  return notes.reduce((least, { column }) => Math.min(least, column), Infinity);
}

function leadInOf(measure: TypedMeasure, { leadIn }: TypedWidths): number {
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

/** Every note with its slot; a slot is halved where the notes stand closer than slots do. */
function placeNotes(
  { notes, width }: TypedMeasure,
  slots: number,
  leadIn: number,
  warnings: Warnings,
): { slot: Rational; note: TypedNote }[] {
  const single = new Set(notes.filter(({ digits }) => digits === 1).map(({ column }) => column));
  // a number of two digits may be set flush right over one of one digit
  const columnOf = ({ column, digits }: TypedNote) =>
    digits === 2 && !single.has(column) && single.has(column + 1) ? column + 1 : column;
  const columns = [...new Set(notes.map(columnOf))].sort((a, b) => a - b);
  const fit = bestFit(
    columns.map((column) => column - leadIn),
    Math.max(1, width - leadIn),
    slots,
  );
  const placeOf = new Map(columns.map((column, index) => [column, fit.places[index] ?? 0]));
  const taken = new Map<number, number>();
  for (const [column, place] of placeOf) if (!taken.has(place)) taken.set(place, column);
  return notes.flatMap((note) => {
    const place = placeOf.get(columnOf(note)) ?? 0;
    if (taken.get(place) === columnOf(note)) return [{ slot: rational(place, fit.parts), note }];
    warnings.add(
      note.line,
      note.lineColumn,
      'too close to the note before it to tell when it sounds; left out',
    );
    return [];
  });
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

function strikesAt(
  notes: readonly { onset: Rational; note: TypedNote }[],
  end: Rational,
  meter: Meter,
  warnings: Warnings,
): Strike[] {
  const together = new Map<string, { onset: Rational; notes: TypedNote[] }>();
  for (const { onset, note } of notes) {
    const key = onset.join('/');
    const chord = together.get(key) ?? { onset, notes: [] };
    chord.notes.push(note);
    together.set(key, chord);
  }
  const chords = [...together.values()].sort((a, b) => a.onset[0] * b.onset[1] - b.onset[0] * a.onset[1]);
  return chords
    .flatMap(({ onset, notes: chord }, index) => {
      const duration = subtract(chords[index + 1]?.onset ?? end, onset);
      return soundedNotes(chord, onset, meter, warnings).map(({ note, technique }) => ({
        onset,
        duration,
        string: note.string,
        fret: note.fret,
        technique,
      }));
    })
    .sort(compareStrikes);
}

/** Two or more long strings at once are a brush, kept as its lowest-numbered string; the short string sounds beside it. */
function soundedNotes(
  chord: readonly TypedNote[],
  onset: Rational,
  meter: Meter,
  warnings: Warnings,
): { note: TypedNote; technique: Technique }[] {
  const long = chord.filter(({ string }) => string < 5).sort((a, b) => a.string - b.string);
  const short = chord.filter(({ string }) => string === 5).slice(0, 1);
  const top = long[0];
  const fretted = long.slice(1).find(({ fret }) => fret > 0);
  if (fretted) {
    const what = `a brush keeps the fret of its first note only; fret ${fretted.fret} here is left out`;
    warnings.add(fretted.line, fretted.lineColumn, what);
  }
  const melody: { note: TypedNote; technique: Technique }[] = !top
    ? []
    : [{ note: top, technique: long.length > 1 ? 'brush' : techniqueOf(top, onset, meter) }];
  return [...melody, ...short.map((note) => ({ note, technique: techniqueOf(note, onset, meter) }))];
}

/**
 * Where no mark says it, the place in the beat does (common practice in down-stroke playing): the short string off the
 * beat is the drone, and an inner string on a place between two down-strokes is the thumb's.
 */
function techniqueOf({ mark, string }: TypedNote, onset: Rational, meter: Meter): Technique {
  if (mark) return mark;
  const [slot, parts] = inSlots(onset, meter);
  const onBeat = parts === 1 && slot % slotsPerBeat(meter) === 0;
  if (string === 5) return onBeat ? 'strike' : 'drone';
  const thumbs = parts === 1 && slot % 2 === 1 && meterShape(meter).division === 2;
  return thumbs && string > 1 ? 'drop-thumb' : 'strike';
}
