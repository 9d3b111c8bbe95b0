import { setImmediate } from 'node:timers/promises';
import { readNotationFile } from '../../../src/lib/core/notation/read-file';
import { heaps } from '../../core/notation/five-megabytes';
import type { Figure } from '../figure';

/** Issue 5: 5 MB of nonsense, or of nothing but valid signs, is refused or read within this time. */
const TARGET_MS = 2000;

/** Per reader the longest that any five megabytes took to be read or refused. */
export async function* measure(): AsyncIterable<Figure> {
  for (const format of new Set(heaps.map((heap) => heap.format))) {
    let worst = 0;
    for (const { bytes, name, what } of heaps.filter((heap) => heap.format === format)) {
      const source = bytes();
      const before = performance.now();
      const file = readNotationFile(source, name);
      if (!('refusal' in file)) file.read(0, { meter: '2/4', voice: 0 });
      const took = performance.now() - before;
      console.error(`${format}, ${what}: ${Math.round(took)} ms`);
      worst = Math.max(worst, took);
      await setImmediate();
    }
    const figure = `five-megabytes-${format.toLowerCase().replace(' ', '-')}`;
    yield { figure, value: Math.round(worst), unit: 'ms', better: 'lower', target: TARGET_MS };
  }
}
