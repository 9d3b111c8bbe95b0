/** Major keys' tonics from seven flats to seven sharps, and as far to both sides as modes reach, by the circle of fifths. */
const BY_FIFTHS = [
  ...['Fb', 'Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'],
  ...['G#', 'D#', 'A#', 'E#', 'B#'],
];
const FIFTHS_OF_C = BY_FIFTHS.indexOf('C');
/** The most sharps or flats of a signature. */
const SIGNATURE_MAX = 7;
/** How many fifths the tonic of a mode lies above that of the major key with the same signature. */
const MODES: Readonly<Record<string, number>> = {
  major: 0,
  ionian: 0,
  mixolydian: 1,
  dorian: 2,
  minor: 3,
  aeolian: 3,
  phrygian: 4,
  locrian: 5,
  lydian: -1,
};

/**
 * A key as a player would say it, by its sharps (flats below 0) and mode: `G`, `E minor`. A mode that is not known is taken
 * for major; `null` for a signature without a name.
 */
export function keyWords(sharps: number, mode: string): string | null {
  if (Math.abs(sharps) > SIGNATURE_MAX) return null;
  const tonic = BY_FIFTHS[sharps + FIFTHS_OF_C + (MODES[mode] ?? 0)];
  return tonic ? tonic + (mode === 'major' || MODES[mode] === undefined ? '' : ` ${mode}`) : null;
}

/** Sharps (flats below 0) of a tonic's key in a mode, as many as it takes. */
export function sharpsOf(tonic: string, mode: string): number {
  return BY_FIFTHS.indexOf(tonic) - FIFTHS_OF_C - (MODES[mode] ?? 0);
}

/** The sharps and the mode that a key in words asks for; C without a mode when the words are no key. */
export function keySignature(words: string | null): { sharps: number; mode: string | null } {
  const match = /^([A-G][#b]?)\s*([a-z]*)/.exec(words ?? '');
  const mode = MODES[match?.[2] ?? ''] === undefined ? 'major' : (match?.[2] ?? 'major');
  const sharps = sharpsOf(match?.[1] ?? 'C', mode);
  return match && Math.abs(sharps) <= SIGNATURE_MAX ? { sharps, mode } : { sharps: 0, mode: null };
}
