import type { Strike } from '../../../src/lib/core/tune/strike';
import { makeTune } from '../../../src/lib/core/tune/make-tune';
import type { Tune } from '../../../src/lib/core/tune/tune';
import { strikeAt } from './stretches';

/**
 * An invented tune in 2/4 of `parts` parts, each played twice, of eight measures with eight strikes each; every part
 * begins with a measure of the one before it, and has hammer-ons, pull-offs, brushes and a few frets of two figures.
 */
export function madeTune(title: string, parts: number, pickupBeats = 0): Tune {
  const names = Array.from({ length: parts }, (_, index) => String.fromCharCode(65 + index));
  let made = 0;
  return makeTune(
    {
      ...{ title, key: 'G', meter: '2/4', goalTempo: 112, tuning: [67, 50, 55, 59, 62], capo: 2, spike: 2 },
      form: names.map((name) => name + name).join(''),
      pickup:
        pickupBeats > 0 ? { beats: pickupBeats, strikes: [strikeAt(0, 3, 0), strikeAt(2, 3, 2)] } : null,
      parts: names.map((name, part) => ({
        name,
        measures: Array.from({ length: 8 }, (_, index) => ({
          beats: 2,
          strikes: measure(part * 8 + index),
          sameAs: index === 0 && part > 0 ? { part: names[part - 1] ?? 'A', index: 7 } : null,
        })),
      })),
    },
    () => `00000000-0000-7000-8000-${String(made++).padStart(12, '0')}`,
    { at: 0, offsetMin: 0 },
  );
}

function measure(seed: number): Strike[] {
  const fret = (slot: number) => (seed * 7 + slot * 5) % 6;
  return [
    strikeAt(0, 1, fret(0)),
    strikeAt(1, 1, fret(0) + 2, 'hammer-on'),
    strikeAt(2, 1, 0, 'brush'),
    strikeAt(3, 5, 0, 'drone'),
    strikeAt(4, 2, seed % 5 === 4 ? 10 : fret(4)),
    strikeAt(5, 3, fret(5), 'drop-thumb'),
    strikeAt(6, 3, 0, 'pull-off'),
    strikeAt(7, 5, 0, 'drone'),
  ];
}
