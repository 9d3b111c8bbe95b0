import { say } from '../../../texts/reading-midi';

/** A note as the file holds it, in ticks. */
export interface MidiNote {
  tick: number;
  ticks: number;
  pitch: number;
  /** From 0; 9 is percussion (General MIDI). */
  channel: number;
}

export interface MidiTrack {
  name: string | null;
  notes: MidiNote[];
}

/** The readable part of a file. Times are in ticks from the start. */
export interface MidiEvents {
  format: number;
  /** Ticks a quarter note. */
  division: number;
  tracks: MidiTrack[];
  tempos: { tick: number; microseconds: number }[];
  meters: { tick: number; count: number; unit: number }[];
  /** Sharps, flats below 0, of the first key signature. */
  key: { sharps: number; isMinor: boolean } | null;
  /** Why the end of the file is missing, as words to follow a place; `null` when all was read. */
  brokenOff: string | null;
}

/** Of all tracks together. */
const NOTES_MAX = 200_000;
const TRACKS_MAX = 256;
/** Of tempo and meter together. */
const CHANGES_MAX = 2000;
/** Ten hours at the usual 480 ticks and 120 beats a minute. */
const TICKS_MAX = 480 * 120 * 600;

/**
 * Reads the events of a Standard MIDI File 1.0 as far as they make sense; a sentence when nothing does. Running status,
 * note-ons of velocity 0, notes that never end and unknown chunks are handled as the standard says.
 */
export function midiEvents(bytes: Uint8Array): MidiEvents | { refusal: string } {
  const reader = new Reader(bytes);
  if (reader.text(4) !== 'MThd') return { refusal: say.noMidi };
  const length = reader.number(4);
  const [format, , division] = [reader.number(2), reader.number(2), reader.number(2)];
  if (reader.isPastEnd || length < 6) {
    return { refusal: say.tooShort };
  }
  if (division >= 0x80_00) {
    return {
      refusal: say.filmFrames,
    };
  }
  if (division === 0) return { refusal: say.noBeat };
  reader.at = 8 + length;
  const events: MidiEvents = {
    ...{ format, division, tracks: [], tempos: [], meters: [], key: null, brokenOff: null },
  };
  while (reader.left >= 8 && events.tracks.length < TRACKS_MAX) {
    const type = reader.text(4);
    const size = reader.number(4);
    if (size > reader.left) events.brokenOff = say.breaksOff;
    const end = Math.min(bytes.length, reader.at + size);
    if (type === 'MTrk') readTrack(new Reader(bytes.subarray(0, end), reader.at), events);
    reader.at = end;
  }
  return events;
}

function readTrack(reader: Reader, events: MidiEvents): void {
  const track: MidiTrack = { name: null, notes: [] };
  const before = events.tracks.reduce((sum, { notes }) => sum + notes.length, 0);
  events.tracks.push(track);
  const sounding = new Map<number, MidiNote>();
  let [tick, status] = [0, 0];
  const end = (key: number) => {
    const note = sounding.get(key);
    if (note) note.ticks = tick - note.tick;
    sounding.delete(key);
  };
  while (reader.left > 0) {
    tick += reader.variable();
    const first = reader.number(1);
    if (reader.isPastEnd) break;
    if (tick > TICKS_MAX || before + track.notes.length >= NOTES_MAX) {
      events.brokenOff = say.trackTooLong;
      break;
    }
    if (first === 0xff) {
      const type = reader.number(1);
      const data = reader.bytes(reader.variable());
      if (type === 0x2f) break;
      readMeta(type, data, tick, track, events);
    } else if (first === 0xf0 || first === 0xf7) {
      reader.bytes(reader.variable());
    } else {
      if (first >= 0x80) status = first;
      else reader.at -= 1;
      if (status < 0x80 || status >= 0xf0) {
        events.brokenOff = say.noEvent;
        break;
      }
      const [kind, channel] = [status >> 4, status & 15];
      const pitch = reader.number(1) & 127;
      const velocity = kind === 0xc || kind === 0xd ? 0 : reader.number(1);
      if (reader.isPastEnd) break;
      if (kind !== 8 && kind !== 9) continue;
      const key = channel * 128 + pitch;
      end(key);
      if (kind === 8 || velocity === 0) continue;
      const note = { tick, ticks: 0, pitch, channel };
      track.notes.push(note);
      sounding.set(key, note);
    }
  }
  for (const key of sounding.keys()) end(key);
  if (reader.isPastEnd) events.brokenOff ??= say.breaksOff;
}

function readMeta(type: number, data: Uint8Array, tick: number, track: MidiTrack, events: MidiEvents): void {
  const [a = 0, b = 0, c = 0] = data;
  if (events.tempos.length + events.meters.length >= CHANGES_MAX) return;
  if (type === 0x03) track.name ??= textOf(data);
  else if (type === 0x51 && data.length >= 3)
    events.tempos.push({ tick, microseconds: a * 65_536 + b * 256 + c });
  else if (type === 0x58 && data.length >= 2 && a > 0 && b <= 6)
    events.meters.push({ tick, count: a, unit: 2 ** b });
  else if (type === 0x59 && data.length >= 2)
    events.key ??= { sharps: a > 127 ? a - 256 : a, isMinor: b === 1 };
}

/** UTF-8 where the bytes are that, else one character a byte. */
function textOf(data: Uint8Array): string | null {
  const raw = Array.from(data.subarray(0, 400), (byte) => String.fromCharCode(byte)).join('');
  const hex = Array.from(data.subarray(0, 400), (byte) => `%${byte.toString(16).padStart(2, '0')}`).join('');
  let text = raw;
  try {
    text = decodeURIComponent(hex);
  } catch {
    // not UTF-8
  }
  return text.replace(/\p{Cc}+/gu, ' ').trim() || null;
}

/** Bytes one after the other; past the end all are 0. */
class Reader {
  at: number;
  isPastEnd = false;
  readonly #bytes: Uint8Array;

  constructor(bytes: Uint8Array, at = 0) {
    this.#bytes = bytes;
    this.at = at;
  }

  get left(): number {
    return this.#bytes.length - this.at;
  }

  number(count: number): number {
    let value = 0;
    for (let index = 0; index < count; index += 1) value = value * 256 + this.#next();
    return value;
  }

  /** A variable-length quantity: four bytes at most. */
  variable(): number {
    let value = 0;
    for (let index = 0; index < 4; index += 1) {
      const byte = this.#next();
      value = value * 128 + (byte & 127);
      if (byte < 128) break;
    }
    return value;
  }

  bytes(count: number): Uint8Array {
    if (count > this.left) this.isPastEnd = true;
    const data = this.#bytes.subarray(this.at, this.at + count);
    this.at += data.length;
    return data;
  }

  text(count: number): string {
    return String.fromCharCode(...this.bytes(count));
  }

  #next(): number {
    const byte = this.#bytes[this.at];
    if (byte === undefined) this.isPastEnd = true;
    else this.at += 1;
    return byte ?? 0;
  }
}
