import { FRET_MAX } from './limits';
import { soundingPitch, type Setup, type StringNumber } from './tuning';

/** From the thinnest; the short string is the drone's. */
export const LONG_STRINGS: readonly StringNumber[] = [1, 2, 3, 4];

/**
 * Where a pitch lies at its lowest fret on some of the strings, on the thinner one of two; `null` when all of them are
 * higher, open. Frets are counted from the capo and go beyond the neck.
 */
export function lowestFret(
  pitch: number,
  strings: readonly StringNumber[],
  setup: Setup,
): { string: StringNumber; fret: number } | null {
  const reach = strings
    .map((string) => ({ string, fret: pitch - soundingPitch(setup, string, 0) }))
    .filter(({ fret }) => fret >= 0)
    .sort((a, b) => a.fret - b.fret);
  return reach[0] ?? null;
}

/** The fret at which the short string has its own nut (common practice). */
const SHORT_STRING_NUT = 5;

/** The last fret of a string, counted as tab counts it: from the capo, on the short string from its own nut or spike. */
export function lastFret(string: StringNumber, { capo, spike }: Setup): number {
  return FRET_MAX - (string === 5 ? SHORT_STRING_NUT + spike : capo);
}
