import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readBackup } from '$lib/core/book/backup';
import { play as playVerb } from '../../src/headless/play';
import { Trouble } from '../../src/headless/trouble';
import type { Options } from '../../src/headless/verbs';

const DEMO = 'sample-data/demo-book.json';
const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-play-'));
afterAll(() => rmSync(folder, { recursive: true }));

const reading = readBackup(readFileSync(DEMO, 'utf8'));
const idOf = (title: string) =>
  (reading.ok ? reading.book.tunes : []).find((tune) => tune.title === title)?.id ?? '';
const CLARK = idOf('Old Joe Clark');
const HEN = idOf('Cluck Old Hen');

function play(...args: string[]) {
  const out = path.join(folder, 'out.wav');
  rmSync(out, { force: true });
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      'node_modules/tsx/dist/cli.mjs',
      'src/headless/main.ts',
      ...['play', '--book', DEMO, '--out', out],
      ...args,
    ],
    { encoding: 'utf8' },
  );
  return { status, stdout, stderr, wave: existsSync(out) ? readWave(readFileSync(out)) : null };
}

/** Samples of a 16-bit mono WAVE file (RIFF/WAVE, Microsoft and IBM 1991), from -1 to 1. */
function readWave(bytes: Buffer): { rate: number; samples: number[] } {
  expect(bytes.toString('latin1', 0, 4) + bytes.toString('latin1', 8, 16)).toBe('RIFFWAVEfmt ');
  const count = bytes.readUInt32LE(40) / 2;
  const samples = Array.from({ length: count }, (_, index) => bytes.readInt16LE(44 + 2 * index) / 32767);
  return { rate: bytes.readUInt32LE(24), samples };
}

const loudest = (samples: readonly number[], fromSec: number, toSec: number, rate = 48_000) =>
  samples.slice(fromSec * rate, toSec * rate).reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);

describe('play, at the terminal', { timeout: 60_000 }, () => {
  it('writes a span of measures at a tempo, from its first strike on', () => {
    const { status, stdout, stderr, wave } = play(
      '--tune',
      CLARK,
      '--from',
      'A2',
      '--to',
      'A4',
      '--tempo',
      '60',
    );
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(JSON.parse(stdout)).toMatchObject({
      title: 'Old Joe Clark',
      passage: 'Measures 2–4, part A',
      tempo: 60,
      plucks: 24,
      withoutTab: [],
    });
    // six beats of a second, and what rings on
    expect(wave?.samples).toHaveLength((6 + 1.5) * 48_000);
    expect(loudest(wave!.samples, 0, 0.02)).toBeGreaterThan(0.1);
    expect(wave!.samples.every((sample) => Math.abs(sample) < 0.99)).toBe(true);
  });

  it('sounds the drone alone, at its place in the beat', () => {
    const { wave } = play(
      '--tune',
      CLARK,
      '--from',
      'A1',
      '--tempo',
      '60',
      '--sound',
      'drone',
      '--rate',
      '44100',
    );
    expect(wave?.rate).toBe(44_100);
    const first = wave!.samples.findIndex((sample) => sample !== 0);
    expect(first / 44_100).toBeCloseTo(0.75, 3);
  });

  it('leaves the space of the answer, and counts in', () => {
    const { wave } = play(
      '--tune',
      CLARK,
      '--from',
      'B1',
      '--tempo',
      '120',
      '--answers',
      '--count-in',
      '1',
      '--click',
    );
    const { samples } = wave!;
    expect(samples).toHaveLength((1 + 1 + 1 + 1.5) * 48_000);
    // the answer holds two clicks and nothing between them
    expect(loudest(samples, 2.0, 2.05)).toBeGreaterThan(0.1);
    expect(loudest(samples, 2.2, 2.48)).toBeLessThan(0.01);
    expect(loudest(samples, 1.2, 1.48)).toBeGreaterThan(0.03);
  });

  it('plays only the click where there is no tab, when asked to', () => {
    const { stdout, status } = play('--tune', HEN, '--from', 'A1', '--click');
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ plucks: 0, withoutTab: ['A1'] });
  });

  it('says what is wrong in one sentence, and writes nothing', () => {
    const { status, stdout, stderr, wave } = play('--tune', CLARK, '--tempo', '-40');
    expect({ status, stdout, wave }).toEqual({ status: 2, stdout: '', wave: null });
    expect(stderr).toBe('Give --tempo as a number from 30 to 240: saw -40.\n');
  });
});

describe('what cannot be played', () => {
  const out = path.join(folder, 'never.wav');
  const said = (options: Options): string => {
    try {
      playVerb({ book: DEMO, out, ...options }, []);
    } catch (error) {
      if (error instanceof Trouble) return error.message;
      throw error;
    }
    return 'nothing was wrong';
  };

  it.each<[string, Options, RegExp]>([
    ['a tempo of 0', { tune: CLARK, tempo: '0' }, /30 to 240: saw 0/],
    ['a negative tempo', { tune: CLARK, tempo: '-40' }, /saw -40/],
    ['a tempo of 1000', { tune: CLARK, tempo: '1000' }, /saw 1000/],
    ['a tempo that is no number', { tune: CLARK, tempo: 'NaN' }, /saw NaN/],
    ['no tune', {}, /Old Joe Clark.*saw nothing/],
    ['an unknown tune', { tune: 'x' }, /Old Joe Clark.*saw x/],
    ['a label that does not exist', { tune: CLARK, from: 'A9' }, /A1 to A8, B1 to B8: saw --from A9/],
    ['a span over two parts', { tune: CLARK, from: 'A8', to: 'B1' }, /inside one part/],
    ['a span backwards', { tune: CLARK, from: 'A3', to: 'A2' }, /earlier.*saw A3 to A2/],
    ['a passage without tab', { tune: HEN }, /no tab yet/],
    ['another sound', { tune: CLARK, sound: 'fiddle' }, /both, melody, drone: saw fiddle/],
    ['half a pass', { tune: CLARK, times: '0.5' }, /--times.*saw 0.5/],
    ['no file', { tune: CLARK, out: undefined }, /--out FILE/],
    ['no folder', { tune: CLARK, from: 'A1', out: path.join(folder, 'none', 'a.wav') }, /no such folder/],
  ])('is told in one sentence: %s', (_, options, words) => {
    const sentence = said(options);
    expect(sentence).toMatch(words);
    expect(sentence).toMatch(/^[^\n]*\.$/);
    expect(existsSync(out)).toBe(false);
  });
});
