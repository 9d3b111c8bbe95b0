import { say } from '../../../texts/reading-musicxml';
import { add, compare, multiply, rational, subtract, ZERO, type Rational } from '../../rhythm/rational';
import type { MeasureLabel } from '../../tune/tune';
import type { Tuning } from '../../tune/tuning';
import type { Warnings } from '../reading';
import type { ScoreMeasure, ScoreMeter, ScoreNote, ScoreVoice } from '../score';
import { joinedNotes } from './joined-notes';
import { fingeringOf, isTied, pitchOf } from './read-note';
import { chordWords, keyOf, LABEL_MAX, meterOf } from './read-words';
import { at, childOf, childrenOf, numberAt, textAt, type XmlElement } from './xml-tree';

export interface PartRead {
  voices: ScoreVoice[];
  meter: ScoreMeter | null;
  key: string | null;
  tuning: Tuning | null;
  capo: number | null;
  /** Quarter notes per minute. */
  quarters: number | null;
}

type Shared = Omit<ScoreMeasure, 'notes'>;

/** In whole notes; nothing in one measure is longer. */
const LONGEST: Rational = [64, 1];
const MOST_DIVISIONS = 10_000_000;
/** Of one voice in one measure. */
const MOST_NOTES = 500;
const MOST_VOICES = 50;

/** Reads the measures of one part. Everything is placed by durations: what a note looks like is not looked at. */
export class PartReader {
  #warnings: Warnings;
  #divisions = 1;
  #meter: ScoreMeter | null = null;
  #firstMeter: ScoreMeter | null = null;
  #key: string | null = null;
  #tuning: Tuning | null = null;
  #otherStrings = false;
  #capo: number | null = null;
  #quarters: number | null = null;
  /** Semitones from what is written to what sounds, by staff; 0 is every staff. */
  #transpose = new Map<number, number>();
  #ending: readonly number[] | null = null;
  #shared: Shared[] = [];
  #notes = new Map<string, ScoreNote[][]>();
  #graceSeen = false;
  // of the measure under way
  #cursor: Rational = ZERO;
  #end: Rational = ZERO;
  #chordAt: Rational = ZERO;

  constructor(warnings: Warnings) {
    this.#warnings = warnings;
  }

  /** Takes the next measure in, or leaves it out when its durations are beyond exact numbers. */
  add(element: XmlElement): void {
    const index = this.#shared.length;
    try {
      const shared = this.#measure(element, index);
      for (const measures of this.#notes.values()) {
        const notes = measures[index];
        if (notes) measures[index] = joinedNotes(notes);
      }
      this.#shared.push(shared);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      for (const [voice, measures] of this.#notes) {
        measures.length = Math.min(index, measures.length);
        if (measures.length === 0) this.#notes.delete(voice);
      }
      this.#say(element, say.noSum);
    }
  }

  #measure(element: XmlElement, index: number): Shared {
    this.#cursor = ZERO;
    this.#end = ZERO;
    this.#chordAt = ZERO;
    const { line, column } = element;
    const shared = {
      ...{ line, column, meter: null as ScoreMeter | null, length: ZERO, labels: [] as MeasureLabel[] },
      ...{ opensRepeat: false, timesPlayed: 0, endsSection: false, part: null as string | null },
      ending: null as readonly number[] | null,
    };
    let leavesEnding = false;
    for (const child of element.children) {
      if (child.name === 'attributes') this.#attributes(child, index);
      else if (child.name === 'note') this.#note(child, index, shared.labels);
      else if (child.name === 'backup') this.#move(child, -1);
      else if (child.name === 'forward') this.#move(child, 1);
      else if (child.name === 'sound') this.#tempo(numberAtAttribute(child, 'tempo'));
      else if (child.name === 'direction') this.#direction(child, shared);
      else if (child.name === 'harmony') this.#label(shared.labels, child, 'chord', chordWords(child));
      else if (child.name === 'barline') leavesEnding = this.#barline(child, shared) || leavesEnding;
    }
    shared.meter = this.#meter;
    shared.ending = this.#ending;
    if (leavesEnding) this.#ending = null;
    shared.length = this.#end;
    if (this.#end[0] === 0 && this.#meter) shared.length = rational(this.#meter.count, this.#meter.unit);
    shared.labels.sort((a, b) => compare(a.onset, b.onset) || a.kind.localeCompare(b.kind));
    return shared;
  }

  /** `null` when the part has no notes. `name` is the part's own. */
  read(name: string): PartRead | null {
    if (this.#notes.size === 0) return null;
    if (this.#otherStrings && !this.#tuning) {
      this.#warnings.add(1, 1, say.otherStrings);
    }
    const voices = [...this.#notes].map(([voice, notes]) => ({
      name: this.#notes.size === 1 ? name : `${name}, ${voice}`,
      measures: this.#shared.map((shared, index) => ({ ...shared, notes: notes[index] ?? [] })),
    }));
    const tuned = this.#otherStrings && !this.#tuning ? voices.map(withoutFingering) : voices;
    return {
      voices: tuned,
      ...{ meter: this.#firstMeter, key: this.#key, tuning: this.#tuning, capo: this.#capo },
      quarters: this.#quarters,
    };
  }

  #attributes(element: XmlElement, index: number): void {
    const divisions = numberAt(element, 'divisions');
    if (divisions !== null) {
      if (Number.isInteger(divisions) && divisions > 0 && divisions <= MOST_DIVISIONS) {
        this.#divisions = divisions;
      } else this.#say(element, say.divisions);
    }
    this.#key ??= keyOf(childOf(element, 'key'));
    const time = childOf(element, 'time');
    if (time) {
      this.#meter = meterOf(time);
      if (index === 0) this.#firstMeter = this.#meter;
    }
    for (const one of childrenOf(element, 'transpose')) {
      const semitones = (numberAt(one, 'chromatic') ?? 0) + 12 * (numberAt(one, 'octave-change') ?? 0);
      this.#transpose.set(Number(one.attributes['number'] ?? 0), Math.round(semitones));
    }
    for (const details of childrenOf(element, 'staff-details')) this.#staffDetails(details);
  }

  #staffDetails(details: XmlElement): void {
    const lines = childrenOf(details, 'staff-tuning')
      .map((one) => ({ line: Number(one.attributes['line']), pitch: pitchOf(one, 'tuning-') }))
      .sort((a, b) => a.line - b.line);
    if (lines.length === 0) return;
    const [fifth, fourth, third, second, first] = lines.map(({ pitch }) => pitch);
    const open = [fifth, fourth, third, second, first];
    if (lines.length !== 5 || !open.every((pitch) => typeof pitch === 'number')) {
      this.#otherStrings = true;
      return;
    }
    this.#tuning ??= open as unknown as Tuning;
    const capo = numberAt(details, 'capo');
    if (capo !== null && capo >= 0 && capo <= 12) this.#capo ??= Math.round(capo);
  }

  /** The duration of a note, backup or forward in whole notes. */
  #duration(element: XmlElement): Rational | null {
    const duration = numberAt(element, 'duration');
    if (duration === null || duration < 0 || !Number.isInteger(duration)) return null;
    const length = rational(duration, 4 * this.#divisions);
    return compare(length, LONGEST) > 0 ? null : length;
  }

  #move(element: XmlElement, direction: 1 | -1): void {
    const length = this.#duration(element);
    if (!length) return this.#say(element, say.duration(element.name));
    if (direction === 1) this.#advance(length);
    else {
      const back = subtract(this.#cursor, length);
      this.#cursor = back[0] < 0 ? ZERO : back;
    }
  }

  #advance(length: Rational): void {
    const next = add(this.#cursor, length);
    if (compare(next, LONGEST) > 0) return;
    this.#cursor = next;
    if (compare(next, this.#end) > 0) this.#end = next;
  }

  #note(note: XmlElement, index: number, labels: MeasureLabel[]): void {
    if (childOf(note, 'grace')) {
      if (!this.#graceSeen) this.#say(note, say.graces);
      this.#graceSeen = true;
      return;
    }
    const duration = this.#duration(note);
    if (!duration) return this.#say(note, say.noteDuration);
    const inChord = childOf(note, 'chord') !== undefined;
    const onset = inChord ? this.#chordAt : this.#cursor;
    if (!inChord) {
      this.#chordAt = this.#cursor;
      this.#advance(duration);
    }
    for (const lyric of childrenOf(note, 'lyric')) {
      const joined = childrenOf(lyric, 'text')
        .map(({ text }) => text)
        .join(' ');
      const goesOn = /^(begin|middle)$/.test(textAt(lyric, 'syllabic') ?? '');
      pushLabel(labels, onset, 'word', joined && joined + (goesOn ? '-' : ''));
    }
    if (childOf(note, 'rest') || duration[0] === 0) return;
    const staff = numberAt(note, 'staff') ?? 1;
    const written = pitchOf(childOf(note, 'pitch'));
    if (written === null) return this.#say(note, say.noPitch);
    const fingering = fingeringOf(note);
    const pitch = written + (this.#transpose.get(staff) ?? this.#transpose.get(0) ?? 0);
    if (pitch < 0 || pitch > 127) return this.#say(note, say.unheard);
    const voice = say.voice(textAt(note, 'voice') ?? '1', staff);
    const measures = this.#notes.get(voice) ?? [];
    if (measures.length === 0 && this.#notes.size >= MOST_VOICES) {
      return this.#say(note, say.tooManyVoices(MOST_VOICES));
    }
    this.#notes.set(voice, measures);
    const notes = (measures[index] ??= []);
    if (notes.length >= MOST_NOTES) return this.#say(note, say.tooManyNotes);
    notes.push({
      ...{ onset, duration, pitch },
      ...(isTied(note) && { tied: true as const }),
      ...(fingering && { fingering }),
    });
  }

  #direction(direction: XmlElement, shared: { labels: MeasureLabel[]; part: string | null }): void {
    for (const type of childrenOf(direction, 'direction-type')) {
      const rehearsal = textAt(type, 'rehearsal');
      if (rehearsal && /^[A-Z]$/.test(rehearsal)) shared.part = rehearsal;
      else if (rehearsal) this.#label(shared.labels, direction, 'word', rehearsal);
      for (const words of childrenOf(type, 'words'))
        this.#label(shared.labels, direction, 'word', words.text);
    }
    const metronome = childrenOf(direction, 'direction-type').map((type) => childOf(type, 'metronome'))[0];
    this.#tempo(numberAtAttribute(childOf(direction, 'sound'), 'tempo') ?? quartersOf(metronome));
  }

  #tempo(quarters: number | null): void {
    if (quarters !== null && quarters > 0) this.#quarters ??= quarters;
  }

  #label(labels: MeasureLabel[], element: XmlElement, kind: MeasureLabel['kind'], text: string | null): void {
    const offset = numberAt(element, 'offset');
    const by = offset !== null && Number.isInteger(offset) ? rational(offset, 4 * this.#divisions) : ZERO;
    const onset = add(this.#cursor, by);
    pushLabel(labels, onset[0] < 0 ? ZERO : onset, kind, text ?? '');
  }

  /** Whether the ending under way stops with this bar line. */
  #barline(
    barline: XmlElement,
    shared: { opensRepeat: boolean; timesPlayed: number; endsSection: boolean },
  ): boolean {
    const ending = childOf(barline, 'ending');
    if (ending?.attributes['type'] === 'start') {
      const numbers = (ending.attributes['number'] ?? '').match(/\d{1,2}/g)?.map(Number) ?? [];
      this.#ending = numbers.length > 0 ? [...new Set(numbers)].slice(0, 32) : [1];
    }
    const repeat = childOf(barline, 'repeat')?.attributes;
    if (repeat?.['direction'] === 'forward') shared.opensRepeat = true;
    if (repeat?.['direction'] === 'backward') {
      const times = Number(repeat['times'] ?? NaN);
      // without a number, the last time through is the one after those that the bracket names
      const usual = this.#ending ? Math.max(...this.#ending) + 1 : 2;
      shared.timesPlayed = Number.isInteger(times) && times > 0 && times <= 32 ? times : Math.min(32, usual);
    }
    // the thick line of a repeat is how every repeat is drawn: it says nothing more than the dots
    if (!repeat && barline.attributes['location'] !== 'left') {
      shared.endsSection ||= /^(light-light|light-heavy|heavy-heavy|heavy-light)$/.test(
        textAt(barline, 'bar-style') ?? '',
      );
    }
    return /^(stop|discontinue)$/.test(ending?.attributes['type'] ?? '');
  }

  #say({ line, column }: XmlElement, what: string): void {
    this.#warnings.add(line, column, what);
  }
}

function pushLabel(labels: MeasureLabel[], onset: Rational, kind: MeasureLabel['kind'], text: string): void {
  const clean = text.replace(/\s+/g, ' ').trim().slice(0, LABEL_MAX);
  if (clean) labels.push({ onset, kind, text: clean });
}

function numberAtAttribute(element: XmlElement | undefined, name: string): number | null {
  const value = Number(element?.attributes[name] ?? NaN);
  return Number.isFinite(value) ? value : null;
}

const UNITS: Record<string, number> = { whole: 4, half: 2, quarter: 1, eighth: 0.5, '16th': 0.25 };

/** Quarter notes per minute of a metronome mark. */
function quartersOf(metronome: XmlElement | undefined): number | null {
  const unit = UNITS[textAt(metronome, 'beat-unit') ?? ''];
  const perMinute = numberAt(metronome, 'per-minute');
  if (unit === undefined || perMinute === null) return null;
  return unit * (at(metronome, 'beat-unit-dot') ? 1.5 : 1) * perMinute;
}

function withoutFingering(voice: ScoreVoice): ScoreVoice {
  const measures = voice.measures.map((measure) => ({
    ...measure,
    notes: measure.notes.map(({ onset, duration, pitch, tied }) => ({
      ...{ onset, duration, pitch },
      ...(tied && { tied }),
    })),
  }));
  return { ...voice, measures };
}

/** Beats per minute of a meter from quarter notes per minute, to a millionth. */
export function beatsFromQuarters(quarters: number, beat: Rational): number {
  const [numerator, denominator] = multiply(beat, [4, 1]);
  return Math.round(((quarters * denominator) / numerator) * 1e6) / 1e6;
}
