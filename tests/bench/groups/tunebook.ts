import { setImmediate } from 'node:timers/promises';
import abcjs from 'abcjs';
import { listAbcTunes, readAbc } from '../../../src/lib/core/notation/abc/read-abc';
import { type Figure, median } from '../figure';
import { seeded } from '../random';

const TUNES = 1000;
const RUNS = 5;
const KEYS = ['G', 'D', 'A', 'C', 'AMix', 'EDor', 'Am'] as const;

/** A tunebook of a thousand made tunes is read, against `abcjs` parsing the same text in the same run. */
export async function* measure(): AsyncIterable<Figure> {
  const text = tunebook();
  const read = readAbc(text).scores.length;
  if (read !== TUNES) throw new Error(`${read} of ${TUNES} tunes were read`);
  // its types say that there is always one tune
  const parsed: readonly unknown[] = abcjs.parseOnly(text);
  if (parsed.length !== TUNES) throw new Error(`The reference parsed ${parsed.length} of ${TUNES} tunes`);
  const [ours, theirs, list]: [number[], number[], number[]] = [[], [], []];
  // in turns, so that whatever else the machine does falls on both
  for (let run = 0; run < RUNS; run++) {
    ours.push(timed(() => readAbc(text)));
    theirs.push(timed(() => abcjs.parseOnly(text)));
    list.push(timed(() => listAbcTunes(text)));
    await setImmediate();
  }
  const reference = { name: 'abcjs parseOnly', value: round(median(theirs)) };
  yield { figure: 'tunebook-read', value: round(median(ours)), unit: 'ms', better: 'lower', reference };
  yield { figure: 'tunebook-list', value: round(median(list)), unit: 'ms', better: 'lower' };
}

/** Two parts of eight measures each, with broken rhythm, triplets, chord symbols and endings. */
function tunebook(): string {
  const random = seeded(5);
  const pick = <T>(from: ArrayLike<T>): T => from[Math.floor(random() * from.length)] as T;
  const note = (): string => pick('GABcdefg');
  const beat = (): string =>
    pick([
      () => note() + note() + note() + note(),
      () => `${note()}2${note()}${note()}`,
      () => `${note()}>${note()}${note()}2`,
      () => `(3${note()}${note()}${note()} ${note()}2`,
      () => `"G"${note()}4`,
    ])();
  const bars = (count: number): string =>
    Array.from({ length: count }, () => `${beat()} ${beat()}`).join(' | ');
  const part = (): string => `|: ${bars(7)} |1 ${bars(1)} :|2 ${bars(1)} |]`;
  return Array.from(
    { length: TUNES },
    (_, index) =>
      `X:${index + 1}\nT:Made tune ${index + 1}\nM:4/4\nL:1/8\nK:${pick(KEYS)}\n${part()}\n${part()}\n`,
  ).join('\n');
}

function timed(work: () => unknown): number {
  const before = performance.now();
  work();
  return performance.now() - before;
}

const round = (value: number): number => Math.round(10 * value) / 10;
