import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chunk, bytesOfNumber } from '../../../src/lib/core/notation/midi/midi-bytes';
import { readMidi } from '../../../src/lib/core/notation/midi/read-midi';
import { writeMidi } from '../../../src/lib/core/notation/midi/write-midi';
import { readingOfScore } from '../../../src/lib/core/notation/score-reading';
import { rational } from '../../../src/lib/core/rhythm/rational';
import { madeMeasure, madeNote, madeScore } from './drawn-scores';

/** A file of tracks given as bytes, 96 ticks a quarter note. */
const file = (format: number, ...tracks: number[][]) =>
  Uint8Array.from([
    ...chunk('MThd', [...bytesOfNumber(format, 2), ...bytesOfNumber(tracks.length, 2), 0, 96]),
    ...tracks.flatMap((track) => chunk('MTrk', track)),
  ]);
const END = [0, 0xff, 0x2f, 0];
const notesOf = (bytes: Uint8Array, voice = 0) =>
  (readMidi(bytes).scores[0]?.voices[voice]?.measures ?? []).map(({ notes }) =>
    notes.map(
      ({ onset, duration, pitch, tied }) =>
        `${onset.join('/')}+${duration.join('/')} ${pitch}${tied ? '-' : ''}`,
    ),
  );
const warningsOf = (bytes: Uint8Array) =>
  readMidi(bytes).scores[0]?.warnings.map(({ message }) => message) ?? [];

describe('readMidi', () => {
  // running status, velocity 0 and notes that never end: Standard MIDI File 1.0
  it('reads running status, ends by velocity 0, and ends what the file does not', () => {
    const track = [0, 0x90, 60, 80, 96, 60, 0, 0, 62, 80, 96, 62, 0, 0, 64, 80, 96, ...END.slice(1)];
    expect(notesOf(file(0, track))).toEqual([['0/1+1/4 60', '1/4+1/4 62', '1/2+1/4 64']]);
  });

  it('moves notes to sixteenths or triplets, beat by beat, and says how far', () => {
    const at = [0, 25, 47, 70, 96, 129, 161];
    const track = at.flatMap((tick, index) => [...[tick - (at[index - 1] ?? 0), 0x90, 60 + index, 80]]);
    const [measure = []] = notesOf(file(0, [...track, 31, 0x90, 70, 0, ...END]));
    expect(measure.map((note) => note.split('+')[0])).toEqual([
      '0/1',
      '1/16',
      '1/8',
      '3/16',
      '1/4',
      '1/3',
      '5/12',
    ]);
    expect(warningsOf(file(0, [...track, ...END])).at(-1)).toMatch(
      /one note was moved .* 2 % of a quarter note/,
    );
  });

  it('ties over bar lines, and names its voices, percussion last', () => {
    const long = [0, 0xff, 3, 4, 0x54, 0x75, 0x6e, 0x65, 0, 0x90, 60, 80, 0x83, 0x60, 60, 0, ...END];
    const drum = [0, 0x99, 36, 80, 96, 36, 0, ...END];
    const bytes = file(1, drum, long);
    expect(readMidi(bytes).scores[0]?.voices.map(({ name }) => name)).toEqual(['Tune', 'track 1']);
    expect(notesOf(bytes)).toEqual([['0/1+1/1 60'], ['0/1+1/4 60-']]);
  });

  it('keeps the tracks of format 2 apart', () => {
    const track = [0, 0x90, 60, 80, 96, 60, 0, ...END];
    expect(readMidi(file(2, track, track)).scores).toHaveLength(2);
  });

  it('reads the half of a file that is there, and refuses what has no beats', () => {
    const whole = file(0, [0, 0x90, 60, 80, 96, 60, 0, 0, 62, 80, 96, 62, 0, ...END]);
    expect(notesOf(whole.subarray(0, whole.length - 7))).toEqual([['0/1+1/4 60', '1/4+1/16 62']]);
    expect(warningsOf(whole.subarray(0, whole.length - 7)).join()).toMatch(/breaks off/);
    const frames = Uint8Array.from(whole);
    frames[12] = 0xe7;
    expect(readMidi(frames).warnings[0]?.message).toMatch(/film frames/);
    expect(readMidi(whole.subarray(0, 9)).warnings[0]?.message).toMatch(/first bytes/);
    expect(readMidi(file(0, END)).warnings[0]?.message).toMatch(/no notes/);
  });

  const places = fc.uniqueArray(fc.integer({ min: 0, max: 7 }), { minLength: 1, maxLength: 8 });
  const measureOf = (taken: readonly number[], length: number) => {
    const sorted = taken.toSorted((a, b) => a - b);
    return madeMeasure(60, {
      length: rational(length, 16),
      notes: sorted.map((place, index) => {
        const next = sorted[index + 1] ?? length;
        return madeNote(rational(place, 16), rational(next - place, 16), 60 + place);
      }),
    });
  };
  const measure = places.map((taken) => measureOf(taken, 8));
  /** Of a whole number of sixteenths, which may be less or more than the meter asks for. */
  const crooked = fc
    .tuple(places, fc.constantFrom(8, 8, 9, 10, 12))
    .map(([taken, length]) => measureOf(taken, length));
  const written = fc.tuple(
    fc.option(fc.integer({ min: 1, max: 7 }).map((length) => measureOf([0], length))),
    places.map((taken) => measureOf([0, ...taken.filter((place) => place > 0)], 8)),
    fc.array(crooked, { maxLength: 5 }),
    measure,
  );

  it('reads back what was written, pickups and crooked measures too', () => {
    fc.assert(
      fc.property(written, ([pickup, first, more, last]) => {
        const measures = [...(pickup ? [pickup] : []), first, ...more, last];
        const score = madeScore(measures, { key: 'A minor' });
        const [read] = readMidi(writeMidi(score)).scores;
        expect(read).toMatchObject({ title: score.title, key: 'A minor', tempo: 112, meter: score.meter });
        const shape = (one: (typeof measures)[number]) => ({ notes: one.notes, length: one.length });
        expect(read?.voices[0]?.measures.map(shape)).toEqual(measures.map(shape));
      }),
    );
  });

  const meterBytes = (wait: number, count: number) => [wait, 0xff, 0x58, 4, count, 2, 24, 8];
  const noteBytes = (wait: number, pitch: number) => [wait, 0x90, pitch, 80, 96, pitch, 0];

  // a pickup stands in a first measure of its own meter, or at the end of a full one: common practice
  it('finds the pickup in a first measure that is shorter, or that begins with silence', () => {
    const own = file(0, [
      ...meterBytes(0, 1),
      ...noteBytes(0, 60),
      ...meterBytes(0, 4),
      ...noteBytes(0, 62),
      ...END,
    ]);
    const late = file(0, [...meterBytes(0, 4), 0x82, ...noteBytes(0x20, 60), ...noteBytes(0, 62), ...END]);
    for (const bytes of [own, late]) {
      const [score] = readMidi(bytes).scores;
      expect(score?.meter).toEqual({ count: 4, unit: 4 });
      const reading = readingOfScore(score!);
      expect(reading.pickup).toMatchObject({ beats: 1, melody: [{ onset: [0, 1], pitch: 60 }] });
      expect(reading.parts[0]?.measures[0]?.melody).toMatchObject([{ onset: [0, 1], pitch: 62 }]);
    }
    expect(warningsOf(own)).toEqual([]);
    expect(warningsOf(late).join()).toMatch(/silence; what sounds in it is read as a pickup/);
  });

  it('leaves out silent measures before the first note, and keeps a shorter silence in its measure', () => {
    const silent = file(0, [...meterBytes(0, 2), 0x83, ...noteBytes(0x00, 60), ...END]);
    expect(notesOf(silent)).toEqual([['0/1+1/4 60']]);
    expect(warningsOf(silent).join()).toMatch(/first 2 measures are silent; left out/);
    expect(notesOf(file(0, [...meterBytes(0, 4), ...noteBytes(96, 60), ...END]))).toEqual([['1/4+1/4 60']]);
  });

  it('says which tempo it kept of a file that changes it', () => {
    const tempo = (wait: number, micro: number) => [
      wait,
      0xff,
      0x51,
      3,
      micro >> 16,
      (micro >> 8) & 255,
      micro & 255,
    ];
    const at120 = [...tempo(0, 500_000), ...noteBytes(0, 60)];
    const changed = file(0, [...at120, ...tempo(0, 1_000_000), ...noteBytes(0, 62), ...END]);
    expect(readMidi(changed).scores[0]?.tempo).toBe(120);
    expect(warningsOf(changed).join()).toMatch(/between 60 and 120 beats a minute; 120, .* is kept/);
    expect(warningsOf(file(0, [...tempo(0, 900_000), ...at120, ...END])).join()).not.toMatch(/tempo/);
  });

  it('keeps its measures few where a small file has very many voices', () => {
    // 64 tracks of 16 channels, one note each; the last some thousand measures from the start
    const note = (channel: number, wait: number[]) => [
      ...wait,
      0x90 + channel,
      60,
      80,
      96,
      0x80 + channel,
      60,
      0,
    ];
    const channels = Array.from({ length: 16 }, (_, channel) => note(channel, [0])).flat();
    const late = note(0, [0x84, 0x80, 0x80, 0]);
    const { scores, warnings } = readMidi(
      file(1, ...Array.from({ length: 64 }, () => [...channels, ...late, ...END])),
    );
    const [score] = scores;
    expect(score?.voices).toHaveLength(100);
    expect(warnings[0]?.message).toMatch(/1024 voices; those after the first 100 are left out/);
    const measures = score?.voices.reduce((sum, voice) => sum + voice.measures.length, 0);
    expect(measures).toBeLessThanOrEqual(40_000);
    expect(measures).toBeGreaterThanOrEqual(100);
    expect(score?.warnings.map(({ message }) => message).join()).toContain('what follows is left out');
  });

  it('keeps no more notes of many tunes than of one', () => {
    // format 2: 100 tunes, in each 128 notes that sound over 20 measures
    const held = Array.from({ length: 128 }, (_, pitch) => [0, 0x90, pitch, 80]).flat();
    const late = [0x81, 0xac, 0x00, 0x90, 0, 0, ...END];
    const { scores } = readMidi(file(2, ...Array.from({ length: 100 }, () => [...held, ...late])));
    const notes = scores.map(({ voices }) =>
      voices.reduce(
        (sum, { measures }) => sum + measures.reduce((some, one) => some + one.notes.length, 0),
        0,
      ),
    );
    expect(scores).toHaveLength(100);
    expect(notes[0]).toBeGreaterThan(128);
    expect(notes.reduce((sum, count) => sum + count, 0)).toBe(100_000);
    expect(
      scores
        .at(-1)
        ?.warnings.map(({ message }) => message)
        .join(),
    ).toMatch(/more than 100000 notes/);
  });

  it('never throws, whatever the bytes', () => {
    const good = writeMidi(madeScore(Array.from({ length: 8 }, (_, index) => madeMeasure(60 + index))));
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 200 }).map((tail) => Uint8Array.from([...good.subarray(0, 22), ...tail])),
      fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), { maxLength: 8 }).map((changes) => {
        const changed = Uint8Array.from(good);
        for (const [at, byte] of changes) changed[at] = byte;
        return changed;
      }),
    );
    fc.assert(
      fc.property(bytes, (data) => {
        const { scores, warnings } = readMidi(data);
        expect(scores.length + warnings.length).toBeGreaterThan(0);
        for (const score of scores) expect(readingOfScore(score).warnings).toBeDefined();
      }),
      { numRuns: 300 },
    );
  });
});
