import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readMoment, readTuning } from '../../src/headless/arguments';
import { COMMON_TUNINGS } from '$lib/core/tune/tuning';

const DEMO = 'sample-data/demo-book.json';
const NOW = '2026-11-25T18:00:00+01:00';
const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-headless-'));
afterAll(() => rmSync(folder, { recursive: true }));

function headless(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['node_modules/tsx/dist/cli.mjs', 'src/headless/main.ts', ...args],
    { encoding: 'utf8' },
  );
  return { status, stdout, stderr };
}

interface PlanOutput {
  items: {
    title: string;
    tuning: string;
    measures: string[];
    key: string;
    minutes: number;
    reason: string;
  }[];
  minutes: number;
}

describe('what the terminal prints', { timeout: 60_000 }, () => {
  it('plans the demo book, the same twice', () => {
    const args = ['plan', '--book', DEMO, '--minutes', '20', '--now', NOW] as const;
    const { status, stdout, stderr } = headless(...args);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const plan = JSON.parse(stdout) as PlanOutput;
    expect(plan.items.length).toBeGreaterThan(2);
    expect(plan.minutes).toBeLessThanOrEqual(20);
    for (const item of plan.items) expect(item.reason).toMatch(/\d|New/);
    expect(headless(...args).stdout).toBe(stdout);
  });

  it('tells which measures of a tune share a figure, and which are nearly the same', () => {
    const angeline = '01a130d6-bb41-76f5-975c-625522cedd86';
    const { status, stdout } = headless('figures', '--book', DEMO, '--tune', angeline, '--layer', 'plain');
    expect(status).toBe(0);
    const told = JSON.parse(stdout) as { measures: number; toLearn: number; nearSame: { words: string }[] };
    expect(told).toMatchObject({ title: 'Angeline the Baker', measures: 16, toLearn: 8 });
    expect(told.nearSame[0]?.words).toBe(
      'A7 is A3 but for the last beat: second fret of the third string instead of the open second string.',
    );
    const lost = headless('figures', '--book', DEMO, '--tune', angeline, '--layer', 'slides');
    expect(lost).toMatchObject({ status: 2, stdout: '' });
    expect(lost.stderr).toContain('has the layers plain');
  });

  it('keeps to a tuning that is named, and explains what it plans', () => {
    const { stdout } = headless('plan', '--book', DEMO, '--minutes', '8', '--now', NOW, '--tuning', 'gDGBD');
    const plan = JSON.parse(stdout) as PlanOutput;
    expect(plan.items[0]?.tuning).toBe('gDGBD');
    const key = plan.items[0]?.key ?? '';
    const explained = headless('explain', '--book', DEMO, '--passage', key, '--now', NOW);
    const { sentences } = JSON.parse(explained.stdout) as { sentences: string[] };
    expect(sentences[0]).toContain(plan.items[0]?.title);
    expect(sentences.length).toBeGreaterThan(2);
  });

  it('leaves out what is skipped, and keeps in what is pinned', () => {
    const args = ['plan', '--book', DEMO, '--minutes', '10', '--now', NOW] as const;
    const keys = ({ stdout }: { stdout: string }) =>
      (JSON.parse(stdout) as PlanOutput).items.map(({ key }) => key);
    const before = keys(headless(...args));
    const pin = keys(headless(...args, '--minutes', '60')).find((key) => !before.includes(key)) ?? '';
    const [skip = ''] = before;
    const after = keys(headless(...args, '--skip', skip, '--pin', pin));
    expect(after).toContain(pin);
    expect(after).not.toContain(skip);
  });

  it('lists standings of tunes and passages', () => {
    const { stdout } = headless('standings', '--book', DEMO, '--now', NOW);
    const { tunes, standings } = JSON.parse(stdout) as { tunes: unknown[]; standings: { passes: number }[] };
    expect(tunes).toHaveLength(6);
    expect(standings.length).toBeGreaterThan(50);
    expect(standings.every(({ passes }) => passes > 0)).toBe(true);
  });

  it('imports typed tab', () => {
    const { stdout, status } = headless('import', 'sample-data/tunes/old-joe-clark.txt');
    expect(status).toBe(0);
    const { tunes } = JSON.parse(stdout) as {
      tunes: { parts: { name: string; measures: unknown[] }[] }[];
    };
    expect(tunes.map(({ parts }) => parts.map(({ name, measures }) => [name, measures.length]))).toEqual([
      [
        ['A', 8],
        ['B', 8],
      ],
    ]);
  });

  it.each<[string, string[], RegExp]>([
    ['an unknown verb', ['sing'], /plan, standings, explain, import, .*: saw sing/],
    ['no verb', [], /saw nothing/],
    ['an unknown option', ['plan', '--volume', '11'], /'--volume'.*the options are/],
    ['no book', ['plan', '--minutes', '20', '--now', NOW], /--book FILE/],
    ['a missing file', ['plan', '--book', 'no-such.json', '--minutes', '20', '--now', NOW], /no such file/],
    ['minutes under five', ['plan', '--book', DEMO, '--minutes', '4', '--now', NOW], /5 to 120: saw 4/],
    ['negative minutes', ['plan', '--book', DEMO, '--minutes', '-5', '--now', NOW], /saw -5/],
    ['minutes that are no number', ['plan', '--book', DEMO, '--minutes', 'x', '--now', NOW], /saw x/],
    [
      'a date without offset',
      ['plan', '--book', DEMO, '--minutes', '9', '--now', '2026-11-25T18:00'],
      /or Z/,
    ],
    ['no date', ['standings', '--book', DEMO], /--now .*saw nothing/],
    ['30 February', ['standings', '--book', DEMO, '--now', '2026-02-30T10:00:00Z'], /saw 2026-02-30/],
    [
      'no such tuning',
      ['plan', '--book', DEMO, '--minutes', '9', '--now', NOW, '--tuning', 'xyz'],
      /no tuning xyz/,
    ],
    ['no such key', ['explain', '--book', DEMO, '--passage', 'B9', '--now', NOW], /key .*saw B9/],
    [
      'no key to skip',
      ['plan', '--book', DEMO, '--minutes', '9', '--now', NOW, '--skip', 'B9'],
      /key .*saw B9/,
    ],
    ['nothing to import', ['import'], /one file/],
    ['no tab in the file', ['import', 'package.json'], /./],
  ])('says what is wrong with %s in one sentence', (_, args, words) => {
    const { status, stdout, stderr } = headless(...args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toMatch(words);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(/[.]\n$/);
  });

  it('refuses a damaged book and says where', () => {
    const file = path.join(folder, 'damaged.json');
    writeFileSync(file, readFileSync(DEMO, 'utf8').replace('"clean"', '"neat"'));
    const { status, stderr } = headless('standings', '--book', file, '--now', NOW);
    expect(status).toBe(2);
    expect(stderr).toMatch(/not a book that can be read/);
    writeFileSync(file, '{');
    expect(headless('standings', '--book', file, '--now', NOW).status).toBe(2);
  });
});

describe('readMoment', () => {
  // ISO 8601: local time with its difference from UTC
  it.each([
    ['2026-11-25T18:00:00-05:00', Date.UTC(2026, 10, 25, 23), -300],
    ['2026-11-25T18:00:00Z', Date.UTC(2026, 10, 25, 18), 0],
    ['2026-11-25T18:00+05:30', Date.UTC(2026, 10, 25, 12, 30), 330],
    ['2026-11-25T18:00:00.250+0100', Date.UTC(2026, 10, 25, 17, 0, 0, 250), 60],
  ])('reads %s', (text, at, offsetMin) => {
    expect(readMoment(text)).toEqual({ at, offsetMin });
  });
});

describe('readTuning', () => {
  it('reads every common tuning by name and by what it is called', () => {
    for (const { name, called, tuning } of COMMON_TUNINGS) {
      expect(readTuning(name)).toEqual(tuning);
      expect(readTuning(called)).toEqual(tuning);
    }
  });

  it('reads five pitches of any kind in the nearest octave', () => {
    expect(readTuning('aDF#AD')).toEqual([69, 50, 54, 57, 62]);
    expect(readTuning('gBbGBbD')).toEqual([67, 46, 55, 58, 62]);
  });
});
