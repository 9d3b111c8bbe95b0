import { add, compare, multiply, rational, subtract, ZERO, type Rational } from '../../rhythm/rational';
import { compareNotes } from '../../tune/melody';
import { LABELS_MAX, STRIKES_MAX } from '../../tune/limits';
import type { MeasureLabel } from '../../tune/tune';
import { SCORE_MEASURES_MAX, type ScoreMeasure, type ScoreMeter, type ScoreNote } from '../score';
import { NO_KEY, type AbcKey } from './abc-key';

type Open<T> = { -readonly [Key in keyof T]: T[Key] };
type OpenNote = Open<ScoreNote>;
type OpenMeasure = Open<Omit<ScoreMeasure, 'notes' | 'labels'>> & {
  notes: OpenNote[];
  labels: MeasureLabel[];
};

/** One written note of the music, before it has a place. */
export interface WrittenNote {
  letter: string;
  /** In semitones; `null` when no accidental is written. */
  accidental: number | null;
  /** Octaves above that of middle C. */
  octave: number;
  isTied: boolean;
}

const LETTER_PITCH: Record<string, number> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const MIDDLE_C = 60;
/** Finer than any music; bounds the numbers that exact arithmetic meets. */
const DENOMINATOR_MAX = 20_000;

interface Tuplet {
  factor: Rational;
  left: number;
}

/** One voice while it is read: where in the measure it is, and what still holds from what stood before. */
export class AbcVoice {
  readonly measures: OpenMeasure[] = [];
  key: AbcKey = NO_KEY;
  meter: ScoreMeter | null = null;
  unit: Rational = [1, 8];
  /** The notes and chords of the line of music read last, for the words under it. */
  sung: { measure: OpenMeasure; onset: Rational }[] = [];

  #measure: OpenMeasure | null = null;
  #at: Rational = ZERO;
  #accidentals = new Map<string, number>();
  /** What the notes read last sound, by letter and octave; and those of them that are tied to what follows. */
  #sounded = new Map<string, number>();
  #ties = new Map<string, number>();
  #tuplet: Tuplet | null = null;
  #broken: Rational | null = null;
  #last: { start: Rational; notes: OpenNote[] } | null = null;
  #ending: readonly number[] | null = null;
  #opens = false;
  #part: string | null = null;

  constructor(readonly name: string) {}

  /** It has as many measures as are kept, or its measure as many notes: those that follow are to be left out. */
  get isFull(): boolean {
    const notes = this.#measure?.notes.length ?? 0;
    return this.measures.length >= SCORE_MEASURES_MAX || notes >= STRIKES_MAX;
  }

  /** Plays some notes at once for so many units; none is a rest. False when that is finer than can be kept. */
  sound(written: readonly WrittenNote[], units: Rational, line: number, column: number): boolean {
    let length = multiply(units, this.unit);
    if (this.#tuplet) length = multiply(length, this.#tuplet.factor);
    if (this.#broken) length = multiply(length, this.#broken);
    const end = add(this.#at, length);
    if (end[1] > DENOMINATOR_MAX || compare(length, ZERO) <= 0 || end[0] > 10_000 * end[1]) return false;
    this.#broken = null;
    if (this.#tuplet && (this.#tuplet.left -= 1) === 0) this.#tuplet = null;
    const measure = this.#open(line, column);
    const [sounded, ties] = [new Map<string, number>(), new Map<string, number>()];
    const notes = written.map((note): OpenNote => {
      const place = `${note.letter}${note.octave}`;
      const held = note.accidental === null ? this.#ties.get(place) : undefined;
      const pitch = held ?? this.#pitch(note);
      sounded.set(place, pitch);
      if (note.isTied) ties.set(place, pitch);
      return { onset: this.#at, duration: length, pitch, ...(held !== undefined && { tied: true as const }) };
    });
    [this.#sounded, this.#ties] = [sounded, ties];
    measure.notes.push(...notes);
    if (notes.length > 0) this.sung.push({ measure, onset: this.#at });
    this.#last = { start: this.#at, notes };
    this.#at = end;
    return true;
  }

  /** All notes read last are tied to what follows. */
  tie(): void {
    this.#ties = this.#sounded;
  }

  /** The notes before are longer or shorter by this factor, and what follows by the other. */
  breakRhythm(before: Rational, after: Rational): void {
    if (!this.#last) return;
    const length = multiply(subtract(this.#at, this.#last.start), before);
    if (length[1] > DENOMINATOR_MAX) return;
    for (const note of this.#last.notes) note.duration = length;
    this.#at = add(this.#last.start, length);
    this.#broken = after;
  }

  beginTuplet(factor: Rational, left: number): void {
    this.#tuplet = { factor, left };
  }

  label(kind: MeasureLabel['kind'], text: string, line: number, column: number): void {
    const { labels } = this.#open(line, column);
    if (labels.length < LABELS_MAX) labels.push({ onset: this.#at, kind, text });
  }

  /** A measure begins here too, so that the part can be played by itself. */
  beginPart(name: string): void {
    this.#close();
    this.#part = name;
  }

  beginEnding(times: readonly number[]): void {
    this.#close();
    this.#ending = times;
  }

  /** A bar line. `times`: how often the repeat that ends here is played in all, 0 when none does. */
  bar({ times, opens, isDouble }: { times: number; opens: boolean; isDouble: boolean }): void {
    this.#close();
    const before = this.measures.at(-1);
    if (before && times > 0) before.timesPlayed = Math.max(before.timesPlayed, times);
    if (before && isDouble) before.endsSection = true;
    if (times > 0 || opens || isDouble) this.#ending = null;
    if (opens) this.#opens = true;
  }

  /** Measures without a note. */
  rest(count: number, line: number, column: number): void {
    this.#close();
    const length: Rational = this.meter ? rational(this.meter.count, this.meter.unit) : [1, 1];
    for (let place = 0; place < count && !this.isFull; place += 1) {
      this.#open(line, column);
      this.#at = length;
      this.#close();
    }
  }

  /** The voice as read, with what was left open closed. */
  finish(): ScoreMeasure[] {
    this.#close();
    return this.measures.map((measure) => ({
      ...measure,
      notes: measure.notes.toSorted(compareNotes),
      labels: measure.labels.toSorted((a, b) => compare(a.onset, b.onset) || a.kind.localeCompare(b.kind)),
    }));
  }

  #pitch({ letter, accidental, octave }: WrittenNote): number {
    if (accidental !== null) this.#accidentals.set(letter, accidental);
    // section 4.2: an accidental holds to the end of the bar, in every octave
    const altered = this.#accidentals.get(letter) ?? this.key.alterations[letter] ?? 0;
    const pitch = MIDDLE_C + (LETTER_PITCH[letter] ?? 0) + 12 * octave + altered + this.key.moved;
    return Math.min(127, Math.max(0, pitch));
  }

  #open(line: number, column: number): OpenMeasure {
    if (this.#measure) return this.#measure;
    this.#measure = {
      ...{ line, column, meter: this.meter, length: ZERO, notes: [], labels: [], timesPlayed: 0 },
      ...{ opensRepeat: this.#opens, ending: this.#ending, endsSection: false, part: this.#part },
    };
    this.#opens = false;
    this.#part = null;
    return this.#measure;
  }

  #close(): void {
    this.#accidentals.clear();
    this.#last = null;
    this.#broken = null;
    if (this.#measure && compare(this.#at, ZERO) > 0) {
      this.#measure.length = this.#at;
      this.measures.push(this.#measure);
      this.#measure = null;
    }
    this.#at = ZERO;
  }
}
