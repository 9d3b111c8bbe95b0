import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { click } from '../../src/headless/click';
import { Trouble } from '../../src/headless/trouble';

const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-click-'));
const out = path.join(folder, 'click.wav');
afterAll(() => rmSync(folder, { recursive: true }));

function headless(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['node_modules/tsx/dist/cli.mjs', 'src/headless/main.ts', 'click', ...args],
    { encoding: 'utf8' },
  );
  return { status, stdout, stderr };
}

function readWav(file: string) {
  const bytes = readFileSync(file);
  expect(bytes.toString('latin1', 0, 4) + bytes.toString('latin1', 8, 16)).toBe('RIFFWAVEfmt ');
  expect(bytes.readUInt32LE(4)).toBe(bytes.length - 8);
  expect([bytes.readUInt16LE(20), bytes.readUInt16LE(22), bytes.readUInt16LE(34)]).toEqual([1, 1, 16]);
  expect(bytes.readUInt32LE(40)).toBe(bytes.length - 44);
  const rate = bytes.readUInt32LE(24);
  const samples = Array.from({ length: (bytes.length - 44) / 2 }, (_, index) =>
    bytes.readInt16LE(44 + 2 * index),
  );
  return { rate, samples };
}

/** Where a sample stands out after at least 15 ms near silence. */
function onsets({ rate, samples }: ReturnType<typeof readWav>): number[] {
  const found: number[] = [];
  let silent = Infinity;
  samples.forEach((sample, index) => {
    if (sample !== 0 && silent > rate * 0.015) found.push(index);
    silent = sample === 0 ? silent + 1 : 0;
  });
  return found;
}

describe('click writes a WAVE file', { timeout: 60_000 }, () => {
  it('of the down-stroke pulse, each click on its sample', () => {
    const args = ['--meter', '4/4', '--tempo', '92', '--beats', '16', '--pattern', 'downstroke'];
    const { status, stdout, stderr } = headless(...args, '--out', out);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(JSON.parse(stdout)).toMatchObject({ out, sampleRate: 48_000, clicks: 24 });
    const wav = readWav(out);
    expect(wav.rate).toBe(48_000);
    const perBeat = (60 * 48_000) / 92;
    const pulse = Array.from({ length: 8 }, (_, index) => [2 * index, 2 * index + 1, 2 * index + 1.5]).flat();
    expect(onsets(wav)).toEqual(pulse.map((beat) => Math.round(beat * perBeat)));
    const peak = wav.samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(peak / 32_767).toBeCloseTo(0.9, 3);
  });

  it('of a climb with a spoken count-in, and of a ramp', () => {
    const climb = ['--tempo', '100', '--to-tempo', '120', '--step', '10', '--beats', '4', '--out', out];
    const { stdout } = headless(...climb, '--count-in', '1', '--spoken', '--rate', '44100');
    // 4 beats counted, then 4 each at 100, 110 and 120
    const seconds = 240 / 100 + 240 / 100 + 240 / 110 + 240 / 120;
    const told = JSON.parse(stdout) as { seconds: number; clicks: number };
    expect(told.clicks).toBe(16);
    expect(told.seconds).toBeCloseTo(seconds + 0.15, 3);
    const ramp = headless('--tempo', '60', '--to-tempo', '120', '--beats', '30', '--out', out);
    expect((JSON.parse(ramp.stdout) as { seconds: number }).seconds).toBeCloseTo(20.15, 3);
  });

  it.each<[string, string[], RegExp]>([
    ['tempo 0', ['--tempo', '0'], /20 to 300: saw 0/],
    ['a negative tempo', ['--tempo', '-60'], /saw -60/],
    ['tempo 1000', ['--tempo', '1000'], /saw 1000/],
    ['a tempo that is no number', ['--tempo', 'NaN'], /saw NaN/],
    ['no tempo', [], /--tempo .*saw nothing/],
    ['an unknown meter', ['--tempo', '90', '--meter', '7/8'], /2\/2, 2\/4.*saw 7\/8/],
    ['an unknown pattern', ['--tempo', '90', '--pattern', 'waltz'], /beat, down-stroke.*saw waltz/],
    ['an unknown sound', ['--tempo', '90', '--sound', 'cow'], /wood, bell, rim: saw cow/],
    ['no beats', ['--tempo', '90', '--beats', '0'], /--beats .*saw 0/],
    ['half a beat', ['--tempo', '90', '--beats', '2.5'], /whole number .*saw 2.5/],
    ['a swing past 2', ['--tempo', '90', '--swing', '3'], /1 to 2: saw 3/],
    ['steps to nowhere', ['--tempo', '90', '--step', '5'], /--to-tempo/],
    ['a folder that is not there', ['--tempo', '90', '--out', '/nowhere/a.wav'], /no such folder/],
  ])('says what is wrong with %s in one sentence', (_, args, words) => {
    const options = Object.fromEntries(
      Array.from({ length: args.length / 2 }, (__, index) => [
        args[2 * index]!.slice(2),
        args[2 * index + 1],
      ]),
    );
    const run = () => click({ out, ...options }, []);
    expect(run).toThrow(Trouble);
    expect(run).toThrow(words);
    expect(run).toThrow(/^[^\n]*[.]$/);
  });

  it('asks for a file when none is named, and gives the code of bad input', () => {
    expect(headless('--tempo', '90')).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/--out FILE/),
    });
  });
});
