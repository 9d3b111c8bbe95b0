import tone from '@tonejs/midi';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { deltaBytes } from '../../src/lib/core/notation/midi/midi-bytes';
import { writeMidi } from '../../src/lib/core/notation/midi/write-midi';
import { drawnVoice, madeMeasure, madeNote, madeScore } from '../core/notation/drawn-scores';

const played = madeScore(drawnVoice('|:a|1b:|2c||').measures, { key: 'E minor' });

describe('Standard MIDI File 1.0', () => {
  // the standard's own table of variable-length quantities
  it.each([
    [0, '00'],
    [0x40, '40'],
    [127, '7f'],
    [128, '81 00'],
    [1000, '87 68'],
    [8192, 'c0 00'],
    [16_383, 'ff 7f'],
    [0x0f_ff_ff_ff, 'ff ff ff 7f'],
  ])('writes %i as %s', (value, hex) => {
    expect(
      deltaBytes(value)
        .map((byte) => byte.toString(16).padStart(2, '0'))
        .join(' '),
    ).toBe(hex);
  });

  // SCIENCE.md: `abc2midi` writes 250,000 microseconds a quarter for Q:1/2=120
  it('counts the tempo in quarter notes, whatever the beat', () => {
    const half = madeScore(played.voices[0]?.measures ?? [], { meter: { count: 2, unit: 2 }, tempo: 120 });
    const [conductor = []] = parseMidi(writeMidi(half)).tracks;
    expect(conductor).toContainEqual(
      expect.objectContaining({ type: 'setTempo', microsecondsPerBeat: 250_000 }),
    );
  });
});

describe('what midi-file and @tonejs/midi read', () => {
  it('has its header, title, meter, key and the notes as they are played', () => {
    const { header, tracks } = parseMidi(writeMidi(played));
    expect(header).toMatchObject({ format: 1, numTracks: 2, ticksPerBeat: 480 });
    expect(tracks[0]).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ type: 'trackName', text: 'Old Marl Pit' }),
        expect.objectContaining({ type: 'timeSignature', numerator: 2, denominator: 4, metronome: 24 }),
        expect.objectContaining({ type: 'keySignature', key: 1, scale: 1 }),
      ]),
    );
    const { tracks: read, header: heads } = new tone.Midi(writeMidi(played));
    const notes = read.flatMap((track) => track.notes);
    expect(notes.map(({ midi }) => String.fromCharCode(midi)).join('')).toBe('abac');
    expect(notes.map(({ ticks, durationTicks }) => [ticks, durationTicks])).toEqual([
      [0, 960],
      [960, 960],
      [1920, 960],
      [2880, 960],
    ]);
    expect(heads.tempos[0]?.bpm).toBeCloseTo(112, 3);
  });

  it('joins tied notes, and sounds a repeated one again', () => {
    const tied = madeMeasure(60, { notes: [madeNote([0, 1], [1, 4], 60, { tied: true })], length: [1, 4] });
    const bytes = writeMidi(madeScore([madeMeasure(60), tied, madeMeasure(60)]));
    const notes = new tone.Midi(bytes).tracks.flatMap((track) => track.notes);
    expect(notes.map(({ ticks, durationTicks }) => [ticks, durationTicks])).toEqual([
      [0, 1440],
      [1440, 960],
    ]);
  });

  it('makes every onset exact, or stays within the bounds of the format', () => {
    const sevenths = Array.from({ length: 7 }, (_, index) => madeNote([index, 14], [1, 14], 60 + index));
    const { header } = parseMidi(writeMidi(madeScore([madeMeasure(60, { notes: sevenths })])));
    expect(header.ticksPerBeat).toBe(3360);
    const odd = [97, 89, 83].map((denominator) => madeNote([1, denominator], [1, denominator], 60));
    expect(
      parseMidi(writeMidi(madeScore([madeMeasure(60, { notes: odd })]))).header.ticksPerBeat,
    ).toBeLessThan(32_768);
  });
});
