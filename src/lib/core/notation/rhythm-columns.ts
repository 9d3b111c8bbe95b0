import { beatOf, beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { add, compare, equal, type Rational } from '../rhythm/rational';
import { flagsOf, pieces, type NoteValue } from './note-values';

/** What is written at one place of a measure, for tab and staff alike. */
export interface RhythmColumn {
  /** From the start of the measure, in whole notes. */
  onset: Rational;
  value: NoteValue;
  kind: 'note' | 'held' | 'rest';
}

interface Timed {
  onset: Rational;
  duration: Rational;
}

/** What part of a measure is written, in whole notes from its start. */
export interface Span {
  from: Rational;
  to: Rational;
}

/**
 * The columns of one line of notes, in order. Notes that begin together are one column, and each gives way to the
 * next. A `held` column is tied to the one before it. In tab a string rings until the next one is struck, so that tab has
 * rests only where a beat begins in silence; a melody rests wherever it is written to.
 */
export function rhythmColumns(
  notes: readonly Timed[],
  { from, to }: Span,
  meter: Meter,
  style: 'tab' | 'melody',
): RhythmColumn[] {
  const { beat } = meterShape(meter);
  const columns: RhythmColumn[] = [];
  const write = (onset: Rational, end: Rational, kind: 'note' | 'rest') => {
    for (const [index, piece] of pieces(onset, end, beat).entries()) {
      columns.push({ ...piece, kind: kind === 'note' && index > 0 ? 'held' : kind });
    }
  };
  let written = from;
  const places = heardPlaces(notes, { from, to });
  for (const [index, { onset, end }] of places.entries()) {
    const next = places[index + 1]?.onset ?? to;
    if (compare(written, onset) < 0) write(written, onset, 'rest');
    const rings = style === 'tab' ? later(end, beatEnd(onset, meter)) : end;
    written = compare(rings, next) < 0 ? rings : next;
    write(onset, written, 'note');
  }
  if (compare(written, to) < 0) write(written, to, 'rest');
  return columns;
}

function heardPlaces(notes: readonly Timed[], { from, to }: Span): { onset: Rational; end: Rational }[] {
  const places: { onset: Rational; end: Rational }[] = [];
  for (const { onset, duration } of notes) {
    if (compare(onset, from) < 0 || compare(onset, to) >= 0) continue;
    const end = add(onset, duration);
    const last = places.at(-1);
    if (last && equal(last.onset, onset)) last.end = later(last.end, end);
    else places.push({ onset, end });
  }
  return places;
}

function later(a: Rational, b: Rational): Rational {
  return compare(a, b) < 0 ? b : a;
}

/** The end of the beat in which a place lies. */
function beatEnd(onset: Rational, meter: Meter): Rational {
  return beatsToWholeNotes(meter, beatOf(meter, onset) + 1);
}

/** Columns that share a beam, or stand alone: by the beat (common practice); rests and quarters part them. */
export function beamGroups(columns: readonly RhythmColumn[], meter: Meter): RhythmColumn[][] {
  const groups: RhythmColumn[][] = [];
  for (const column of columns) {
    const group = groups.at(-1);
    const last = group?.at(-1);
    const joins =
      last &&
      [last, column].every(({ kind, value }) => kind !== 'rest' && flagsOf(value) > 0) &&
      beatOf(meter, last.onset) === beatOf(meter, column.onset);
    if (joins) group?.push(column);
    else groups.push([column]);
  }
  return groups;
}

/** One beam of a level: from column to column of its group, or a stub at one of them. */
export interface Beam {
  /** 1 for the beam of eighths, 2 for that of sixteenths. */
  level: number;
  first: number;
  last: number;
  /** A lone shorter note among longer ones: to the note before it, or, at the head of its group, after it. */
  stub: 'left' | 'right' | null;
}

/** The beams of a group of two or more. */
export function beamsOf(group: readonly RhythmColumn[]): Beam[] {
  const flags = group.map(({ value }) => flagsOf(value));
  const beams: Beam[] = [];
  for (let level = 1; level <= Math.max(...flags); level += 1) {
    let first = -1;
    for (let index = 0; index <= flags.length; index += 1) {
      if ((flags[index] ?? 0) >= level) {
        if (first < 0) first = index;
      } else if (first >= 0) {
        const last = index - 1;
        beams.push({ level, first, last, stub: first < last ? null : first > 0 ? 'left' : 'right' });
        first = -1;
      }
    }
  }
  return beams;
}

/** Runs of columns that are three in the time of two, by the beat, as indices into `columns`. */
export function tripletRuns(
  columns: readonly RhythmColumn[],
  meter: Meter,
): { first: number; last: number }[] {
  const runs: { first: number; last: number }[] = [];
  for (const [index, { value, onset }] of columns.entries()) {
    if (!value.isTriplet) continue;
    const run = runs.at(-1);
    const before = columns[index - 1];
    const goesOn = run?.last === index - 1 && before && beatOf(meter, before.onset) === beatOf(meter, onset);
    if (goesOn) run.last = index;
    else runs.push({ first: index, last: index });
  }
  return runs;
}

/** True when a whole measure is one silence: it is written as one rest, whatever its length (common practice). */
export function isSilent(columns: readonly RhythmColumn[]): boolean {
  return columns.every(({ kind }) => kind === 'rest');
}
