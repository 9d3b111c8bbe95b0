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
