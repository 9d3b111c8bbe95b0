import { say } from '../../texts/reading';
import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { add, compare, divide, rational, type Rational, subtract, toNumber, ZERO } from '../rhythm/rational';
import { BEATS_MAX, DENOMINATOR_MAX, FRET_MAX, LABEL_MAX, LABELS_MAX, STRIKES_MAX } from '../tune/limits';
import type { MeasureDraft } from '../tune/make-tune';
import { compareNotes, type MelodyNote } from '../tune/melody';
import { compareStrikes, type Strike } from '../tune/strike';
import type { MeasureLabel, Pickup } from '../tune/tune';
import type { Warnings } from './reading';
import type { ScoreNote } from './score';
import type { Fragment } from './score-units';

/** How the measures of one tune are made. */
export interface Fitting {
  meter: Meter;
  /** Some note of the tune says string and fret: its measures are tab, its silent ones too. */
  isTab: boolean;
  warnings: Warnings;
}

/** Measures of the tune's meter, each a whole number of half beats long. */
export function fittedMeasures(fragments: readonly Fragment[], fitting: Fitting): MeasureDraft[] {
  const cut = fragments.flatMap((fragment) => cutLong(fragment, fitting));
  return carried(cut, fitting.warnings).map((fragment) => {
    const beats = halfBeats(fragment.length, fitting.meter);
    if (compare(beatsToWholeNotes(fitting.meter, beats), fragment.length) > 0 && fragment.full) {
      const { meter, warnings } = fitting;
      warnings.add(fragment.line, fragment.column, say.notInHalfBeats(meter, beats));
    }
    return measureDraft(fragment, beats, fitting);
  });
}

/** The notes before the first measure, the last of them at its end; `null` when they fill a measure. */
export function fittedPickup(fragment: Fragment, fitting: Fitting): Pickup | null {
  const { beats, strikes, melody } = ledIn(fragment, fitting);
  if (beats >= meterShape(fitting.meter).beats) return null;
  return { beats, strikes, ...(melody && { melody }) };
}

/** A lead-in as a measure: the rest that fills its half beat comes first. */
export function ledIn(fragment: Fragment, fitting: Fitting): MeasureDraft {
  const beats = halfBeats(fragment.length, fitting.meter);
  const wait = subtract(beatsToWholeNotes(fitting.meter, beats), fragment.length);
  const moved = <T extends { onset: Rational }>(things: readonly T[]) =>
    things.map((thing) => ({ ...thing, onset: add(thing.onset, wait) }));
  const [whole] = carried([fragment], fitting.warnings);
  const { notes, labels } = whole ?? fragment;
  return measureDraft({ ...fragment, notes: moved(notes), labels: moved(labels) }, beats, fitting);
}

function halfBeats(length: Rational, meter: Meter): number {
  const halves = toNumber(divide(length, meterShape(meter).beat)) * 2;
  // a third of a beat short of a whole one is no rounding error: only what floating point adds is taken off
  return Math.max(1, Math.ceil(halves - 1e-9)) / 2;
}

/** Two or more full measures without a bar line between them, cut where the bar lines belong. */
function cutLong(fragment: Fragment, { meter, warnings }: Fitting): Fragment[] {
  const most = beatsToWholeNotes(meter, BEATS_MAX);
  const wanted = fragment.full ?? beatsToWholeNotes(meter, meterShape(meter).beats);
  const piece = compare(wanted, most) > 0 ? most : wanted;
  if (compare(fragment.length, add(piece, piece)) < 0 && compare(fragment.length, most) <= 0)
    return [fragment];
  if (fragment.full) {
    warnings.add(fragment.line, fragment.column, say.noBarLine);
  }
  const pieces: Fragment[] = [];
  for (let from = ZERO; compare(from, fragment.length) < 0; from = add(from, piece)) {
    const left = subtract(fragment.length, from);
    const length = compare(left, piece) < 0 ? left : piece;
    const to = add(from, length);
    const inside = <T extends { onset: Rational }>(things: readonly T[]) =>
      things
        .filter(({ onset }) => compare(onset, from) >= 0 && compare(onset, to) < 0)
        .map((thing) => ({ ...thing, onset: subtract(thing.onset, from) }));
    pieces.push({ ...fragment, notes: inside(fragment.notes), labels: inside(fragment.labels), length });
  }
  return pieces;
}

/** Notes that sound past the end of their measure are tied into the next; the last measure's end there. */
function carried(fragments: readonly Fragment[], warnings: Warnings): Fragment[] {
  let over: ScoreNote[] = [];
  return fragments.map((fragment, index) => {
    const isLast = index === fragments.length - 1;
    const notes = [...over, ...fragment.notes];
    over = [];
    return {
      ...fragment,
      notes: notes.map((note) => {
        const past = subtract(add(note.onset, note.duration), fragment.length);
        if (compare(past, ZERO) <= 0) return note;
        if (isLast) warnings.add(fragment.line, fragment.column, say.pastTheEnd);
        else over.push(heldOver(note, past));
        return { ...note, duration: subtract(fragment.length, note.onset) };
      }),
    };
  });
}

function heldOver({ fingering, ...note }: ScoreNote, duration: Rational): ScoreNote {
  const held = fingering && { ...fingering, technique: 'tie' as const };
  return { ...note, onset: ZERO, duration, tied: true, ...(held && { fingering: held }) };
}

function measureDraft(fragment: Fragment, beats: number, fitting: Fitting): MeasureDraft {
  const { line, column } = fragment;
  const notes = fragment.notes.slice(0, STRIKES_MAX).filter(({ duration }) => duration[0] > 0);
  if (fragment.notes.length > STRIKES_MAX) {
    fitting.warnings.add(line, column, say.tooManyNotes(STRIKES_MAX));
  }
  const strikes = fitting.isTab ? strikesOf(notes) : null;
  if (fitting.isTab && !strikes) {
    fitting.warnings.add(line, column, say.notAllFingered);
  }
  const labels = labelsOf(fragment, beatsToWholeNotes(fitting.meter, beats));
  return {
    beats,
    strikes,
    ...(!strikes && { melody: notes.map(melodyNote).sort(compareNotes) }),
    ...(labels.length > 0 && { labels }),
    sameAs: null,
  };
}

/** The tab of a measure, or `null` when a note of it has no place on the neck. */
function strikesOf(notes: readonly ScoreNote[]): Strike[] | null {
  const strikes: Strike[] = [];
  for (const { onset, duration, tied, fingering } of notes) {
    if (!fingering || fingering.fret > FRET_MAX) return null;
    const technique = tied ? ('tie' as const) : fingering.technique;
    strikes.push({ ...fingering, technique, onset: stored(onset), duration: stored(duration) });
  }
  return strikes.sort(compareStrikes);
}

function melodyNote({ onset, duration, pitch, tied }: ScoreNote): MelodyNote {
  const octaves = pitch > 127 ? Math.ceil((pitch - 127) / 12) : pitch < 0 ? Math.floor(pitch / 12) : 0;
  const within = pitch - 12 * octaves;
  return { onset: stored(onset), duration: stored(duration), pitch: within, ...(tied && { tied }) };
}

function labelsOf({ labels, notes }: Fragment, end: Rational): MeasureLabel[] {
  const last = notes.at(-1)?.onset ?? ZERO;
  return labels
    .map(({ onset, kind, text }) => ({
      onset: stored(compare(onset, end) < 0 ? onset : last),
      kind,
      text: text.trim().slice(0, LABEL_MAX).trim(),
    }))
    .filter(({ text }) => text !== '')
    .sort((a, b) => compare(a.onset, b.onset))
    .slice(0, LABELS_MAX);
}

/** Sums of unlike tuplets may be finer than what is kept: those go down to the nearest place that can be. */
function stored(value: Rational): Rational {
  if (value[1] <= DENOMINATOR_MAX) return value;
  return rational(Math.max(value[0] > 0 ? 1 : 0, Math.floor(toNumber(value) * 10_080)), 10_080);
}
