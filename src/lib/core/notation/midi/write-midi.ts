import {
  add,
  compare,
  divide,
  multiply,
  rational,
  type Rational,
  toNumber,
  ZERO,
} from '../../rhythm/rational';
import { keySignature } from '../key-words';
import { scoreBeat } from '../score-meter';
import { playedOut } from '../play-order';
import type { Score, ScoreMeter, ScoreNote } from '../score';
import { bytesOfNumber, chunk, deltaBytes, textBytes } from './midi-bytes';

/** A quarter note, where that makes every onset exact. */
const USUAL_TICKS = 480;
/** A division is 15 bits (Standard MIDI File 1.0). */
const MOST_TICKS = 32_767;
/** General MIDI program 106, banjo, counted from 0 (from memory). */
const BANJO = 105;
const VELOCITY = 90;
/** The finest unit and most units of a meter that is made for one measure. */
const UNIT_MAX = 64;
const COUNT_MAX = 255;

/** What a file says at a moment, in ticks from the start. At one tick lower ranks come first. */
interface MidiEvent {
  tick: number;
  rank: number;
  bytes: readonly number[];
}

/**
 * A Standard MIDI File, format 1: a track with title, tempo and meters, and one with the first voice as it is
 * played. Tied notes are one note. Ticks a quarter note are 480, or more where only then every onset is exact.
 */
export function writeMidi(score: Score): Uint8Array {
  const { notes, meters, end } = playedOnce(score);
  const ticks = ticksFor(notes);
  const at = (moment: Rational) => Math.round(toNumber(moment) * 4 * ticks);
  const conductor = [
    ...(score.title ? [{ tick: 0, rank: 0, bytes: textEvent(0x03, score.title) }] : []),
    ...tempoEvents(score),
    ...keyEvents(score.key),
    ...meters.map(({ onset, meter }) => ({ tick: at(onset), rank: 1, bytes: meterEvent(meter) })),
  ];
  const [voice] = score.voices;
  const music = [
    ...(voice?.name ? [{ tick: 0, rank: 0, bytes: textEvent(0x03, voice.name) }] : []),
    { tick: 0, rank: 1, bytes: [0xc0, BANJO] },
    ...notes.flatMap(({ onset, duration, pitch }): MidiEvent[] => {
      const [from, to] = [at(onset), at(add(onset, duration))];
      const key = Math.min(127, Math.max(0, pitch));
      return [
        { tick: from, rank: 3, bytes: [0x90, key, VELOCITY] },
        { tick: Math.max(from + 1, to), rank: 2, bytes: [0x80, key, 0] },
      ];
    }),
  ];
  const last = at(end);
  return Uint8Array.from([
    ...chunk('MThd', [...bytesOfNumber(1, 2), ...bytesOfNumber(2, 2), ...bytesOfNumber(ticks, 2)]),
    ...chunk('MTrk', trackBytes(conductor, last)),
    ...chunk('MTrk', trackBytes(music, last)),
  ]);
}

interface Played {
  notes: ScoreNote[];
  meters: { onset: Rational; meter: ScoreMeter }[];
  end: Rational;
}

/** The first voice as it is played, onsets from the start of the tune; held notes joined. */
function playedOnce(score: Score): Played {
  const notes: ScoreNote[] = [];
  const meters: Played['meters'] = [];
  const sounding = new Map<number, ScoreNote>();
  let start = ZERO;
  let inForce = score.meter;
  let meter: ScoreMeter | null = null;
  for (const measure of playedOut(score).voices[0]?.measures ?? []) {
    inForce = measure.meter ?? inForce;
    const next = inForce && writtenMeter(measure.length, inForce);
    if (next && (next.count !== meter?.count || next.unit !== meter.unit)) {
      meters.push({ onset: start, meter: next });
      meter = next;
    }
    for (const { onset, duration, pitch, tied } of measure.notes) {
      const note = { onset: add(start, onset), duration, pitch };
      const held = tied ? sounding.get(pitch) : undefined;
      if (held && compare(add(held.onset, held.duration), note.onset) === 0) {
        held.duration = add(held.duration, duration);
      } else {
        notes.push(note);
        sounding.set(pitch, note);
      }
    }
    start = add(start, measure.length);
  }
  return { notes, meters, end: start };
}

/**
 * A measure that is longer or shorter than its meter has a meter of its own in a file that knows no bar lines, so that
 * those after it stay where they are; a pickup too.
 */
function writtenMeter([count, parts]: Rational, meter: ScoreMeter): ScoreMeter {
  const unit = Math.max(meter.unit, parts);
  const own = (count * unit) / parts;
  const isPlain = meter.count * parts === count * meter.unit;
  const fits = Number.isInteger(Math.log2(parts)) && unit <= UNIT_MAX && own <= COUNT_MAX;
  return isPlain || !fits ? meter : { count: own, unit };
}

function ticksFor(notes: readonly ScoreNote[]): number {
  let ticks = USUAL_TICKS;
  for (const { onset, duration } of notes) {
    for (const [, denominator] of [onset, add(onset, duration)]) {
      const [, missing] = rational(4 * ticks, denominator);
      if (missing > 1 && ticks * missing <= MOST_TICKS) ticks *= missing;
    }
  }
  return ticks;
}

function textEvent(type: number, text: string): number[] {
  const bytes = textBytes(text);
  return [0xff, type, ...deltaBytes(bytes.length), ...bytes];
}

/** Microseconds a quarter note: beats a minute are in beats of the meter. */
function tempoEvents({ tempo, meter }: Score): MidiEvent[] {
  if (tempo === null || !(tempo > 0)) return [];
  const quarters = toNumber(multiply(scoreBeat(meter), [4, 1]));
  const microseconds = Math.min(0xff_ff_ff, Math.max(1, Math.round(60_000_000 / (tempo * quarters))));
  return [{ tick: 0, rank: 1, bytes: [0xff, 0x51, 3, ...bytesOfNumber(microseconds, 3)] }];
}

/** FF 59: sharps (flats below 0), then 1 for minor. Other modes have their signature and count as major. */
function keyEvents(key: string | null): MidiEvent[] {
  const { sharps, mode } = keySignature(key);
  if (!mode) return [];
  return [{ tick: 0, rank: 1, bytes: [0xff, 0x59, 2, (sharps + 256) % 256, mode === 'minor' ? 1 : 0] }];
}

/** FF 58: numerator, power of two of the denominator, MIDI clocks a beat (24 a quarter), 32nd notes a quarter. */
function meterEvent(meter: ScoreMeter): number[] {
  const clocks = Math.round(toNumber(divide(scoreBeat(meter), [1, 96])));
  const power = Math.round(Math.log2(meter.unit));
  return [0xff, 0x58, 4, Math.min(255, meter.count), power, Math.min(255, clocks), 8];
}

function trackBytes(events: readonly MidiEvent[], end: number): number[] {
  const bytes: number[] = [];
  let before = 0;
  for (const event of events.toSorted((a, b) => a.tick - b.tick || a.rank - b.rank)) {
    bytes.push(...deltaBytes(event.tick - before), ...event.bytes);
    before = event.tick;
  }
  bytes.push(...deltaBytes(Math.max(0, end - before)), 0xff, 0x2f, 0);
  return bytes;
}
