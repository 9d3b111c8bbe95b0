import { parseMidi, writeMidi, type MidiData, type MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { clickTimes, runBeats, type Run } from '$lib/core/rhythm/click-times';
import { exactToNumber } from '$lib/core/rhythm/exact';
import { beatsToWholeNotes, METERS, meterShape, type Meter } from '$lib/core/rhythm/meter';
import { toNumber } from '$lib/core/rhythm/rational';
import {
  rampedTempo,
  steadyTempo,
  tempoAt,
  tempoMap,
  tempoSteps,
  type TempoMap,
} from '$lib/core/rhythm/tempo-map';

/** Ticks per quarter note; a multiple of 96, so that every place that a pattern strikes is a whole tick. */
const DIVISION = 960;

interface Step {
  beat: number;
  tempo: number;
}

const ticksPerBeat = (meter: Meter) => toNumber(beatsToWholeNotes(meter, 1)) * 4 * DIVISION;

/**
 * A Standard MIDI File 1.0 with a tempo meta-event (FF 51 03: microseconds per quarter note) at each step and a note at
 * each stroke, as bytes from `midi-file`.
 */
function smf(run: Run, steps: readonly Step[], strokes: readonly number[]): Uint8Array {
  const perBeat = ticksPerBeat(run.meter);
  const timed = [
    ...steps.map(({ beat, tempo }) => ({
      tick: Math.round(beat * perBeat),
      // the whole microseconds that the format can hold
      event: {
        type: 'setTempo' as const,
        microsecondsPerBeat: Math.round(6e7 / ((tempo * perBeat) / DIVISION)),
      },
    })),
    ...strokes.map((beat) => ({
      tick: Math.round(beat * perBeat),
      event: { type: 'noteOn' as const, channel: 9, noteNumber: 76, velocity: 100 },
    })),
  ].sort((a, b) => a.tick - b.tick || (a.event.type === 'setTempo' ? -1 : 1));
  let before = 0;
  const events: MidiEvent[] = timed.map(({ tick, event }) => {
    const deltaTime = tick - before;
    before = tick;
    return { deltaTime, ...event };
  });
  const data: MidiData = {
    header: { format: 0, numTracks: 1, ticksPerBeat: DIVISION },
    tracks: [[...events, { deltaTime: 0, meta: true, type: 'endOfTrack' }]],
  };
  return Uint8Array.from(writeMidi(data));
}

/** When the notes of a file sound, by its own tempo events alone. */
function noteSeconds(bytes: Uint8Array): number[] {
  const { header, tracks } = parseMidi(bytes);
  const found: number[] = [];
  let [seconds, microseconds] = [0, 500_000];
  for (const event of tracks[0] ?? []) {
    seconds += (event.deltaTime * microseconds) / 1e6 / (header.ticksPerBeat ?? NaN);
    if (event.type === 'setTempo') microseconds = event.microsecondsPerBeat;
    if (event.type === 'noteOn') found.push(seconds);
  }
  return found;
}

function compare(run: Run, map: TempoMap, steps: readonly Step[], withinSec: number): void {
  const strokes = clickTimes(run, steadyTempo(60)).map(({ seconds }) => exactToNumber(seconds));
  const written = noteSeconds(smf(run, steps, strokes));
  const ours = clickTimes(run, map).map(({ seconds }) => exactToNumber(seconds));
  expect(written).toHaveLength(ours.length);
  const worst = ours.reduce((most, at, index) => Math.max(most, Math.abs(at - written[index]!)), 0);
  expect(worst).toBeLessThan(withinSec);
}

const run = (meter: Meter, count: number, pattern: Run['pattern'] = 'down-stroke'): Run => ({
  meter,
  pattern,
  measures: Array.from({ length: count }, () => meterShape(meter).beats),
});

/** The tempo of a file is wrong by up to half a microsecond a quarter note: so much may add up. */
const roundingSec = (one: Run) =>
  toNumber(beatsToWholeNotes(one.meter, toNumber(runBeats(one)))) * 4 * 0.5e-6;

describe('click times against the tempo events of a Standard MIDI File, read back by midi-file', () => {
  it.each(METERS)('in %s, through a climb by steps of 4 %% that changes with every measure', (meter) => {
    const tempos = tempoSteps(60, 120, 4);
    const one = run(meter, tempos.length);
    const { beats } = meterShape(meter);
    const steps = tempos.map((tempo, index) => ({ beat: index * beats, tempo }));
    const map = tempoMap(steps.map(({ beat, tempo }) => ({ kind: 'steady', fromBeat: [beat, 1], tempo })));
    compare(one, map, steps, roundingSec(one) + 1e-9);
  });

  it.each(METERS)('in %s, at one tempo that the format holds exactly, to a nanosecond', (meter) => {
    compare(run(meter, 200, 'eighths'), steadyTempo(100), [{ beat: 0, tempo: 100 }], 1e-9);
  });

  it('through a ramp, by tempo events in the middle of ever shorter steps', () => {
    const one = run('2/4', 32, 'beat');
    const map = rampedTempo(60, 120, [64, 1]);
    const stepped = (perBeat: number) =>
      Array.from({ length: 64 * perBeat }, (_, index) => ({
        beat: index / perBeat,
        tempo: tempoAt(map, [2 * index + 1, 2 * perBeat]),
      }));
    compare(one, map, stepped(4), 1e-3);
    compare(one, map, stepped(32), 1e-4);
  });

  it('would show a tempo that is off by a tenth of a beat a minute', () => {
    const one = run('4/4', 16, 'beat');
    expect(() => {
      compare(one, steadyTempo(100.1), [{ beat: 0, tempo: 100 }], 1e-3);
    }).toThrow();
  });
});
