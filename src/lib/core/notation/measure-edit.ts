import { beatsToWholeNotes, type Meter } from '../rhythm/meter';
import { add, compare, equal, subtract, ZERO, type Rational } from '../rhythm/rational';
import type { MeasureContent } from '../tune/change-measure';
import { BEATS_MAX, BEATS_MIN, FRET_MAX } from '../tune/limits';
import { compareStrikes, type Finger, type Strike, type Technique, type Weight } from '../tune/strike';
import type { MeasureLabel } from '../tune/tune';
import type { StringNumber } from '../tune/tuning';

/** A measure under the learner's hand: what it sounds, and what is written over its places. */
export interface MeasureWriting extends MeasureContent {
  labels: readonly MeasureLabel[];
}

/** What an edit may set on one note; `null` takes it off, and gives the length back to the next strike. */
export interface NoteChange {
  fret?: number;
  technique?: Technique;
  finger?: Finger | null;
  weight?: Weight | null;
  duration?: Rational | null;
}

/** The note of a string at a place, or `null`. */
export function noteAt(writing: MeasureWriting, onset: Rational, string: StringNumber): Strike | null {
  return writing.strikes?.find((strike) => strike.string === string && equal(strike.onset, onset)) ?? null;
}

/**
 * A note put on a string at a place, or the one there changed. A new note is an open one, a drone on the short string
 * and a strike on any other, and lasts until the next strike. Nothing is changed for a place outside the measure.
 */
export function putNote(
  writing: MeasureWriting,
  meter: Meter,
  at: { onset: Rational; string: StringNumber },
  change: NoteChange,
): MeasureWriting {
  const { onset, string } = at;
  if (compare(onset, ZERO) < 0 || compare(onset, endOf(writing, meter)) >= 0) return writing;
  const held = heldLengths(writing, meter);
  const old = noteAt(writing, onset, string);
  const base: Strike = old ?? {
    ...{ onset, string, fret: 0, duration: subtract(endOf(writing, meter), onset) },
    technique: string === 5 ? 'drone' : 'strike',
  };
  const next = changed(base, change);
  const others = (writing.strikes ?? []).filter((strike) => strike !== old);
  if (change.duration) held.add(next);
  else if (old && held.has(old) && change.duration === undefined) held.add(next);
  return laidOut(writing, meter, [...others, next], held);
}

/** Without the note of a string at a place. */
export function takeNote(
  writing: MeasureWriting,
  meter: Meter,
  onset: Rational,
  string: StringNumber,
): MeasureWriting {
  return keepNotes(writing, meter, (strike) => strike.string !== string || !equal(strike.onset, onset));
}

/** A rest: no note starts at the place. */
export function clearPlace(writing: MeasureWriting, meter: Meter, onset: Rational): MeasureWriting {
  return keepNotes(writing, meter, (strike) => !equal(strike.onset, onset));
}

/** No tab; the melody and the words stay. */
export function clearTab(writing: MeasureWriting): MeasureWriting {
  return { ...writing, strikes: null };
}

/** A chord or a word over a place; empty text takes it off. */
export function setLabel(
  writing: MeasureWriting,
  onset: Rational,
  kind: MeasureLabel['kind'],
  text: string,
): MeasureWriting {
  const others = writing.labels.filter((label) => label.kind !== kind || !equal(label.onset, onset));
  const words = text.trim();
  const labels = words ? [...others, { onset, kind, text: words }] : others;
  return { ...writing, labels: [...labels].sort((a, b) => compare(a.onset, b.onset)) };
}

/** The measure made longer or shorter, in beats of the meter (a multiple of one half); what is past its end goes. */
export function setBeats(writing: MeasureWriting, meter: Meter, beats: number): MeasureWriting {
  const fit = Math.min(BEATS_MAX, Math.max(BEATS_MIN, Math.round(beats * 2) / 2));
  const end = beatsToWholeNotes(meter, fit);
  const held = heldLengths(writing, meter);
  const within = <T extends { onset: Rational }>(things: readonly T[]): T[] =>
    things.filter(({ onset }) => compare(onset, end) < 0);
  const melody = writing.melody && within(writing.melody).map((note) => clipped(note, end));
  const shorter: MeasureWriting = {
    beats: fit,
    strikes: writing.strikes && within(writing.strikes),
    ...(melody && { melody }),
    labels: within(writing.labels),
  };
  return laidOut(shorter, meter, shorter.strikes, held);
}

/** What another measure sounds, in this one; its own words stay where they still fit. */
export function copyInto(writing: MeasureWriting, meter: Meter, from: MeasureContent): MeasureWriting {
  const { labels } = setBeats(writing, meter, from.beats);
  const { beats, strikes, melody } = from;
  return { beats, strikes, ...(melody && { melody }), labels };
}

/** The measure with these notes instead of its own, each lasting until the next strike. */
export function withNotes(writing: MeasureWriting, meter: Meter, strikes: readonly Strike[]): MeasureWriting {
  return laidOut(writing, meter, strikes, heldLengths(writing, meter));
}

/** True when the learner gave the note a length of its own: it does not end at the next strike. */
export function hasOwnLength(writing: MeasureWriting, meter: Meter, strike: Strike): boolean {
  return heldLengths(writing, meter).has(strike);
}

/** The end of the measure, in whole notes from its start. */
export function endOf({ beats }: MeasureContent, meter: Meter): Rational {
  return beatsToWholeNotes(meter, beats);
}

function keepNotes(
  writing: MeasureWriting,
  meter: Meter,
  stays: (strike: Strike) => boolean,
): MeasureWriting {
  const kept = writing.strikes?.filter(stays);
  if (!kept || kept.length === writing.strikes?.length) return writing;
  return laidOut(writing, meter, kept, heldLengths(writing, meter));
}

/** The notes whose length is their own, not the time until the next strike. */
function heldLengths(writing: MeasureWriting, meter: Meter): Set<Strike> {
  const strikes = writing.strikes ?? [];
  const end = endOf(writing, meter);
  return new Set(strikes.filter((strike) => !equal(strike.duration, untilNext(strike, strikes, end))));
}

/** In order; each note lasts until the next strike, those with a length of their own as long as the measure lets them. */
function laidOut(
  writing: MeasureWriting,
  meter: Meter,
  strikes: readonly Strike[] | null,
  held: ReadonlySet<Strike>,
): MeasureWriting {
  if (strikes === null) return { ...writing, strikes };
  const end = endOf(writing, meter);
  const laid = strikes.map((strike) =>
    held.has(strike) ? clipped(strike, end) : { ...strike, duration: untilNext(strike, strikes, end) },
  );
  return { ...writing, strikes: laid.length > 0 ? laid.sort(compareStrikes) : null };
}

function untilNext(strike: Strike, strikes: readonly Strike[], end: Rational): Rational {
  let next = end;
  for (const { onset } of strikes) {
    if (compare(onset, strike.onset) > 0 && compare(onset, next) < 0) next = onset;
  }
  return subtract(next, strike.onset);
}

function clipped<T extends { onset: Rational; duration: Rational }>(note: T, end: Rational): T {
  return compare(add(note.onset, note.duration), end) > 0
    ? { ...note, duration: subtract(end, note.onset) }
    : note;
}

function changed(strike: Strike, { fret, technique, finger, weight, duration }: NoteChange): Strike {
  const { finger: oldFinger, weight: oldWeight, ...rest } = strike;
  const nextFinger = finger === undefined ? oldFinger : finger;
  const nextWeight = weight === undefined ? oldWeight : weight;
  return {
    ...rest,
    fret: Math.min(FRET_MAX, Math.max(0, Math.round(fret ?? rest.fret))),
    technique: technique ?? rest.technique,
    duration: duration ?? rest.duration,
    ...(nextFinger && { finger: nextFinger }),
    ...(nextWeight && { weight: nextWeight }),
  };
}
