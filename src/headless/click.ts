import { writeFileSync } from 'node:fs';
import { CLICK_SOUNDS } from '../lib/core/rhythm/click-sound';
import { countInMeasures, runStrokes } from '../lib/core/rhythm/click-times';
import { countSounds } from '../lib/core/rhythm/count-sound';
import { METERS, meterShape, TEMPO_MAX, TEMPO_MIN } from '../lib/core/rhythm/meter';
import { PATTERNS, SWING_MAX, SWING_MIN } from '../lib/core/rhythm/patterns';
import type { Segment } from '../lib/core/rhythm/segment';
import { renderSegments, SoundRenderer } from '../lib/core/rhythm/sound-render';
import { tempoSteps } from '../lib/core/rhythm/tempo-map';
import { wavBytes } from '../lib/core/rhythm/wav';
import { Trouble } from './trouble';
import type { Verb } from './verbs';

const SAMPLE_RATES = [22_050, 44_100, 48_000, 96_000];
const BEATS_MAX = 10_000;
/** Lets the last click ring out. */
const TAIL_SEC = 0.15;

/** Writes the click as a WAVE file: steady, ramped to `--to-tempo`, or climbing there by `--step` percent. */
export const click: Verb = (options) => {
  const out = readOut(options.out);
  const sampleRate = Number(readOneOf('rate', options.rate ?? '48000', SAMPLE_RATES.map(String)));
  const segments = readSegments(options);
  const renderer = new SoundRenderer(sampleRate);
  renderer.take({
    type: 'click-sound',
    sound: readOneOf('sound', options.sound ?? 'wood', CLICK_SOUNDS),
  });
  if (options.spoken) renderer.take({ type: 'count-words', words: countSounds(sampleRate) });
  const samples = renderSegments(segments, renderer, sampleRate, TAIL_SEC);
  writeOut(out, wavBytes(samples, sampleRate));
  const clicks = segments.reduce((sum, segment) => sum + [...runStrokes(segment)].length, 0);
  return { out, sampleRate, seconds: samples.length / sampleRate, clicks };
};

function readSegments(options: Parameters<Verb>[0]): Segment[] {
  const meter = readOneOf('meter', options.meter ?? '4/4', METERS);
  const pattern = readPattern(options.pattern ?? 'beat');
  const tempo = readNumber('tempo', options.tempo, TEMPO_MIN, TEMPO_MAX);
  const beats = readWhole('beats', options.beats ?? '16', 1, BEATS_MAX);
  const swing = readNumber('swing', options.swing ?? '1', SWING_MIN, SWING_MAX);
  const measures = measuresOf(beats, meterShape(meter).beats);
  const segment = (change: Partial<Segment>): Segment => ({
    ...{ id: `click at ${tempo}`, kind: 'pass', meter, tempo, pattern, measures, swing },
    ...change,
  });
  const passes = readTempos(tempo, options).map((change, index) =>
    segment({ ...change, id: `pass-${index}` }),
  );
  const bars = readWhole('count-in', options['count-in'] ?? '0', 0, 2);
  if (bars === 0) return passes;
  const spoken = options.spoken === true;
  const countIn = {
    id: 'count-in',
    pattern: 'beat',
    measures: countInMeasures(meter, bars),
    spoken,
  } as const;
  return [segment({ ...countIn, kind: 'count-in', swing: 1 }), ...passes];
}

type Tempos = Pick<Segment, 'tempo' | 'toTempo'>;

function readTempos(tempo: number, { step, 'to-tempo': to }: Parameters<Verb>[0]): Tempos[] {
  if (to === undefined) {
    if (step !== undefined) throw new Trouble('Say where the steps lead with --to-tempo.');
    return [{ tempo }];
  }
  const toTempo = readNumber('to-tempo', to, TEMPO_MIN, TEMPO_MAX);
  if (step === undefined) return [{ tempo, toTempo }];
  return tempoSteps(tempo, toTempo, readNumber('step', step, 1, 50)).map((each) => ({ tempo: each }));
}

/** Full measures, and the beats that are left over. */
function measuresOf(beats: number, perMeasure: number): number[] {
  const full = Array.from({ length: Math.floor(beats / perMeasure) }, () => perMeasure);
  return beats % perMeasure > 0 ? [...full, beats % perMeasure] : full;
}

/** `downstroke` is `down-stroke`: a hyphen more or less is no mistake. */
function readPattern(text: string): (typeof PATTERNS)[number] {
  const bare = (word: string) => word.replaceAll('-', '');
  return readOneOf('pattern', PATTERNS.find((pattern) => bare(pattern) === bare(text)) ?? text, PATTERNS);
}

export function readOneOf<Word extends string>(option: string, text: string, words: readonly Word[]): Word {
  const found = words.find((word) => word === text);
  if (found === undefined) throw new Trouble(`Give --${option} as one of ${words.join(', ')}: saw ${text}.`);
  return found;
}

export function readNumber(option: string, text: string | undefined, min: number, max: number): number {
  const number = text === undefined || text.trim() === '' ? NaN : Number(text);
  if (!(number >= min && number <= max)) {
    throw new Trouble(`Give --${option} as a number from ${min} to ${max}: saw ${text ?? 'nothing'}.`);
  }
  return number;
}

export function readWhole(option: string, text: string, min: number, max: number): number {
  const number = readNumber(option, text, min, max);
  if (Number.isInteger(number)) return number;
  throw new Trouble(`Give --${option} as a whole number from ${min} to ${max}: saw ${text}.`);
}

export function readOut(file: string | undefined): string {
  if (file === undefined) throw new Trouble('Name the sound file to write with --out FILE.wav.');
  return file;
}

export function writeOut(file: string, bytes: Uint8Array): void {
  try {
    writeFileSync(file, bytes);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unwritable';
    const why = code === 'ENOENT' ? 'there is no such folder' : code;
    throw new Trouble(`Cannot write ${file}: ${why}.`);
  }
}
