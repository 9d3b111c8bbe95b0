import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gunzipSync } from 'node:zlib';
import { playOrder } from '../../src/lib/core/notation/play-order';
import type { Score } from '../../src/lib/core/notation/score';
import { add, toNumber, ZERO, type Rational } from '../../src/lib/core/rhythm/rational';

/** The examples that Debian's package abcmidi brings. */
const EXAMPLES = '/usr/share/doc/abcmidi/examples';

function exampleText(file: string): string {
  const bytes = readFileSync(path.join(EXAMPLES, file));
  return (file.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('latin1');
}

/** Each tune by the name of its file and its place there; none where the package is not installed. */
export const exampleTunes = (
  existsSync(EXAMPLES) ? readdirSync(EXAMPLES).filter((file) => /\.abc(?:\.gz)?$/.test(file)) : []
).flatMap((file) =>
  exampleText(file)
    .split(/^(?=X:)/m)
    .filter((tune) => tune.startsWith('X:'))
    .map((tune, index) => ({ name: `${file} ${index + 1}`, tune })),
);

/** In ticks of 480 to the quarter note, from the start. */
export type Sounded = [tick: number, pitch: number];

export const inOrder = (notes: Sounded[]): Sounded[] => notes.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);

/** What we sound of some voices, played out by an order of parts or as the music stands. */
export function sounded({ voices }: Pick<Score, 'voices'>, order: Score['order']): Sounded[] {
  const notes: Sounded[] = [];
  for (const voice of voices) {
    let start: Rational = ZERO;
    for (const index of playOrder(voice, order)) {
      const measure = voice.measures[index]!;
      for (const { onset, pitch, tied } of measure.notes) {
        if (!tied) notes.push([Math.round(1920 * toNumber(add(start, onset))), pitch]);
      }
      start = add(start, measure.length);
    }
  }
  return inOrder(notes);
}
