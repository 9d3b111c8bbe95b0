import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseMidi } from 'midi-file';
import { afterAll, describe, expect, it } from 'vitest';
import { readTypedTab } from '../../src/lib/core/notation/typed-tab';

const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-import-'));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

/** Two tunes of our own, one number given twice; repeats, endings, a chord symbol. */
const TUNES = `X:7
T:The Winter Well
M:2/4
L:1/8
K:G
|:"G"GABd|1 e2d2:|2 g2G2|]

X:7
T:Low Water
M:2/4
L:1/8
K:D
DFAF|D4|]

T:No number
`;
const file = path.join(folder, 'tunes.abc');
writeFileSync(file, TUNES);

function headless(...args: string[]): { status: number | null; stdout: string; stderr: string } {
  return spawnSync('npx', ['tsx', 'src/headless/main.ts', ...args], { encoding: 'utf8' });
}

describe('import', () => {
  it('tells of every tune its measures, and what was not read', () => {
    const { stdout, status } = headless('import', file, '--tuning', 'double C');
    expect(status).toBe(0);
    const { format, tunes } = JSON.parse(stdout) as {
      format: string;
      tunes: { title: string; number: number; form: string; tuning: number[]; warnings: unknown[] }[];
    };
    expect(format).toBe('abc');
    expect(tunes.slice(0, 2)).toMatchObject([
      { number: 7, title: 'The Winter Well', form: 'A', tuning: [67, 48, 55, 60, 62] },
      { number: 7, title: 'Low Water', form: 'A' },
    ]);
  });

  it('writes one file a tune, as it is played, none over another', () => {
    const out = path.join(folder, 'out');
    const { status } = headless('import', file, '--as', 'midi', '--out', out);
    expect(status).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['7-2.mid', '7.mid']);
    // reference reader: midi-file
    const { tracks } = parseMidi(readFileSync(path.join(out, '7.mid')));
    const pitches = tracks.flatMap((track) =>
      track.flatMap((event) => (event.type === 'noteOn' && event.velocity > 0 ? [event.noteNumber] : [])),
    );
    expect(pitches).toEqual([67, 69, 71, 74, 76, 74, 67, 69, 71, 74, 79, 67]);
  });

  it.each(['abc', 'musicxml'])('tells %s as text', (format) => {
    const { stdout, status } = headless('import', 'sample-data/tunes/old-joe-clark.txt', '--as', format);
    expect(status).toBe(0);
    const { tunes } = JSON.parse(stdout) as { tunes: { text: string }[] };
    expect(tunes[0]?.text).toContain('Old Joe Clark');
  });

  it('writes typed tab as it is played, in the meter that the text says', () => {
    const { stdout, status } = headless('import', 'sample-data/tunes/old-joe-clark.txt', '--as', 'tab');
    expect(status).toBe(0);
    const { tunes, guessedEncoding } = JSON.parse(stdout) as {
      tunes: { text: string }[];
      guessedEncoding: string | null;
    };
    expect(guessedEncoding).toBeNull();
    const reading = readTypedTab(tunes[0]?.text ?? '', { meter: '4/4' });
    expect(reading).toMatchObject({ title: 'Old Joe Clark', capo: 2, spike: 2, meter: '2/4', tempo: 112 });
    // AABB of eight measures each (common practice)
    expect(reading.parts.map(({ measures }) => measures.length)).toEqual([32]);
  });

  it('says in a sentence that a melody has no tab, and names the encoding that it guessed', () => {
    const latin = path.join(folder, 'latin.abc');
    writeFileSync(latin, Buffer.from(TUNES.replace('Winter Well', 'Caf\u00e9 Well'), 'latin1'));
    const { stderr, status } = headless('import', latin, '--as', 'tab');
    expect(status).not.toBe(0);
    expect(stderr).toMatch(/This melody has no tab to write yet/);
    const told = JSON.parse(headless('import', latin).stdout) as { guessedEncoding: string };
    expect(told.guessedEncoding).toBe('Windows-1252');
  });

  it('refuses a format that it does not write in a sentence', () => {
    const { stderr, status } = headless('import', file, '--as', 'pdf');
    expect(status).not.toBe(0);
    expect(stderr).toMatch(/json, abc, musicxml, tab, midi: saw pdf/);
  });
});
