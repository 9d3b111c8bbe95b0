import { say } from '../../../texts/reading-abc';
import { multiply, rational, type Rational } from '../../rhythm/rational';
import type { Warnings } from '../reading';
import { alterationOf } from './abc-key';
import { plainText } from './abc-source';
import type { AbcVoice, WrittenNote } from './abc-voice';

const NOTE = /(\^{1,2}|_{1,2}|=)?([A-Ga-g])([,']*)/y;
const LENGTH = /(\d{0,5})(\/*)(\d{0,5})/y;
const BAR = /(:*)(?:\[\||\|\]|\.?\|{1,2}\]?)(:*)|(:{2,})/y;
/** After a bar line the bracket may be left out (section 4.9). */
const BARE_ENDING = /\[?(\d[\d,-]*)/y;
const ENDING = /\[(\d[\d,-]*)/y;
const TIE = /-/y;
const REST = /[zx]/y;
const TUPLET = /\((\d)(?::(\d?))?(?::(\d{0,2}))?/y;
const BROKEN = /(>{1,3}|<{1,3})/y;
const INLINE = /\[([A-Za-z]):([^\]]*)\]/y;
const QUOTED = /"([^"]*)"/y;
const GRACE = /\{[^}]*\}/y;
const DECORATION = /![^!\s][^!]*!|\+[^+\s][^+]*\+/y;
const MANY_RESTS = /[ZX](\d{0,3})/y;
/** Spaces, slurs, spacers, short decorations, and signs that do not change what is played. */
const SILENT = /[\s`()\\$*~.]|y\d*|[H-WYh-wY]/y;
const ENDING_MAX = 99;
const MANY_RESTS_MAX = 400;
/** Signs of one line that mean nothing, before the line is given up. */
const STRANGE_MAX = 50;

/** What a line of music needs from the tune around it. */
export interface MusicContext {
  warnings: Warnings;
  inField: (field: string, text: string, line: number, column: number) => void;
  onGrace: (line: number, column: number) => void;
  /** Counts what is read, notes of chords each; false when the tune may hold no more: the rest of it is left out. */
  spend: (signs: number) => boolean;
  /** Notes stand here that the voice has no place for. */
  onFull: (line: number, column: number) => void;
  /** The voice that the line goes on in: an inline field may change it. */
  voice: () => AbcVoice;
}

/** Reads one line of music (ABC 2.1, section 4) into the voice. */
export function readMusic(text: string, line: number, firstColumn: number, context: MusicContext): void {
  const cursor = new Cursor(text);
  let strange = 0;
  while (cursor.at < text.length) {
    const place = { line, column: firstColumn + cursor.at };
    if (!context.spend(1)) return context.onFull(line, place.column);
    if (readSign(cursor, place, context) || readSound(cursor, place, context)) continue;
    if (cursor.take(GRACE)) {
      context.onGrace(line, place.column);
      continue;
    }
    if (cursor.take(DECORATION) ?? cursor.take(SILENT)) continue;
    if (cursor.take(TIE)) {
      // section 4.11 wants it next to its note; apart from it, it can mean nothing else
      context.voice().tie();
      continue;
    }
    strange += 1;
    if (strange === 1) {
      context.warnings.add(line, place.column, say.strange(text.charAt(cursor.at)));
    }
    if (strange > STRANGE_MAX) {
      context.warnings.add(line, place.column, say.strangeLine);
      return;
    }
    cursor.at += 1;
  }
}

interface Place {
  line: number;
  column: number;
}

/** Where in a line the reading is. */
class Cursor {
  at = 0;

  constructor(readonly text: string) {}

  /** What a sticky pattern finds here, taken; `null` when it finds nothing. */
  take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (!found || found[0] === '') return null;
    this.at = pattern.lastIndex;
    return found;
  }
}

/** Quoted texts, inline fields, bar lines, endings, tuplets, broken rhythm. False when none stands here. */
function readSign(cursor: Cursor, { line, column }: Place, context: MusicContext): boolean {
  const voice = context.voice();
  const quoted = cursor.take(QUOTED);
  if (quoted) {
    readQuoted(quoted[1] ?? '', voice, line, column);
    return true;
  }
  const inline = cursor.take(INLINE);
  if (inline) {
    context.inField(inline[1] ?? '', inline[2] ?? '', line, column);
    return true;
  }
  const bar = cursor.take(BAR);
  if (bar) readBar(bar, voice);
  const ending = cursor.take(bar ? BARE_ENDING : ENDING);
  if (ending) voice.beginEnding(timesOf(ending[1] ?? ''));
  if (bar ?? ending) return true;
  const tuplet = cursor.take(TUPLET);
  if (tuplet) readTuplet(tuplet, voice);
  const broken = tuplet ? null : cursor.take(BROKEN);
  if (broken) readBroken(broken[1] ?? '', voice);
  return tuplet !== null || broken !== null;
}

/** Chords, notes and rests. False when none stands here. */
function readSound(cursor: Cursor, place: Place, context: MusicContext): boolean {
  const { line, column } = place;
  const voice = context.voice();
  const rests = cursor.take(MANY_RESTS);
  if (rests) {
    voice.rest(Math.min(MANY_RESTS_MAX, Math.max(1, Number(rests[1] ?? 1))), line, column);
    return true;
  }
  const chord = cursor.text.charAt(cursor.at) === '[' ? chordAt(cursor.text, cursor.at) : null;
  if (chord) cursor.at = chord.end;
  const note = chord ? null : cursor.take(NOTE);
  const rest = (chord ?? note) ? null : cursor.take(REST);
  if (!chord && !note && !rest) return false;
  if (voice.isFull || !context.spend(chord?.notes.length ?? 0)) {
    context.onFull(line, column);
    cursor.at = cursor.text.length;
    return true;
  }
  const units = unitsOf(cursor.take(LENGTH));
  const isTied = !rest && cursor.take(TIE) !== null;
  const written = chord?.notes ?? (note ? [writtenNote(note)] : []);
  const notes = written.map((one) => ({ ...one, isTied: one.isTied || isTied }));
  const inUnits = chord ? multiply(units, chord.units) : units;
  if (!voice.sound(notes, inUnits, line, column)) {
    context.warnings.add(line, column, say.noteLength);
  }
  return true;
}

/** `a>b` makes the first half as long again and the second half as long; more signs, more so (section 4.4). */
function readBroken(signs: string, voice: AbcVoice): void {
  const half = 2 ** signs.length;
  const [long, short] = [rational(2 * half - 1, half), rational(1, half)];
  if (signs.startsWith('>')) voice.breakRhythm(long, short);
  else voice.breakRhythm(short, long);
}

/** `"G7"` is a chord to accompany with; a text that begins with `^ _ < > @` is a remark (section 4.18 and 4.19). */
function readQuoted(quoted: string, voice: AbcVoice, line: number, column: number): void {
  const isRemark = /^[\^_<>@]/.test(quoted);
  const text = plainText(isRemark ? quoted.slice(1).replace(/^-?[\d.]+,-?[\d.]+/, '') : quoted);
  if (text !== '') voice.label(isRemark ? 'word' : 'chord', text, line, column);
}

/** Colons before a bar line end a repeat, colons after it begin one; `::` is both (section 4.8). */
function readBar([whole, before = '', after = '', both = '']: RegExpExecArray, voice: AbcVoice): void {
  const closing = both === '' ? before.length : 1;
  const opening = both === '' ? after.length : 1;
  voice.bar({
    times: closing > 0 ? closing + 1 : 0,
    opens: opening > 0,
    isDouble: /\|\||\[\||\|\]/.test(whole),
  });
}

/** `1,3-5` as `[1, 3, 4, 5]` (section 4.10). */
function timesOf(text: string): number[] {
  const times = text.split(',').flatMap((run) => {
    const [from = 0, to = from] = run.split('-').filter(Boolean).map(Number);
    const count = Math.min(ENDING_MAX, Math.max(0, to - from)) + 1;
    return Array.from({ length: count }, (_, index) => from + index);
  });
  return [...new Set(times.filter((time) => time > 0 && time <= ENDING_MAX))];
}

/** `(p:q:r`: p notes in the time of q for the next r notes (section 4.13). */
function readTuplet([, pText = '', qText = '', rText = '']: RegExpExecArray, voice: AbcVoice): void {
  const p = Number(pText);
  if (p < 2) return;
  const isCompound = voice.meter !== null && voice.meter.unit === 8 && voice.meter.count % 3 === 0;
  const n = isCompound ? 3 : 2;
  const usual: Record<number, number> = { 2: 3, 3: 2, 4: 3, 6: 2, 8: 3 };
  const q = Number(qText) || (usual[p] ?? n);
  voice.beginTuplet(rational(q, p), Number(rText) || p);
}

function writtenNote([, mark, name = 'C', octaves = '']: RegExpExecArray): WrittenNote {
  const letter = name.toUpperCase();
  const up = [...octaves].filter((sign) => sign === "'").length;
  return {
    letter,
    accidental: mark === undefined ? null : alterationOf(mark),
    octave: (name === letter ? 0 : 1) + 2 * up - octaves.length,
    isTied: false,
  };
}

/** `3/2`, `/`, `//`, `2`: how many unit lengths (section 4.3). */
function unitsOf(found: RegExpExecArray | null): Rational {
  const [, over = '', slashes = '', under = ''] = found ?? [];
  const numerator = over === '' ? 1 : Number(over);
  if (slashes === '') return rational(numerator === 0 ? 1 : numerator);
  const denominator = under === '' ? 2 ** Math.min(10, slashes.length) : Number(under);
  return rational(numerator === 0 ? 1 : numerator, denominator === 0 ? 1 : denominator);
}

/** `[CEG]`: its length inside is that of its first note (section 4.17). */
function chordAt(text: string, start: number): { notes: WrittenNote[]; units: Rational; end: number } | null {
  const notes: WrittenNote[] = [];
  let units: Rational = [1, 1];
  for (let at = start + 1; at < text.length && notes.length < 20;) {
    if (text.charAt(at) === ']') return notes.length > 0 ? { notes, units, end: at + 1 } : null;
    NOTE.lastIndex = at;
    const note = NOTE.exec(text);
    if (!note) return null;
    LENGTH.lastIndex = NOTE.lastIndex;
    const length = LENGTH.exec(text);
    if (notes.length === 0) units = unitsOf(length);
    at = LENGTH.lastIndex;
    const isTied = text.charAt(at) === '-';
    if (isTied) at += 1;
    notes.push({ ...writtenNote(note), isTied });
  }
  return null;
}
