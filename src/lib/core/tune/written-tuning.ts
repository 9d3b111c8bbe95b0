import type { Tuning } from './tuning';

/** Where each string usually lies (gDGBD): a written letter means its nearest pitch. Common practice. */
const USUAL: Tuning = [67, 50, 55, 59, 62];

const PITCH_CLASS: Record<string, number> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };

/**
 * Reads a tuning as players write it, from the fifth string: `gDGBD`, `f#DF#AD`, `g D G Bb D`. Case does not matter, but
 * a small `b` is a flat where five letters come out only that way. `null` when it is not five pitches.
 */
export function readWrittenTuning(text: string): Tuning | null {
  const compact = text
    .replace(/[\s,.-]+/g, '')
    .replaceAll('♯', '#')
    .replaceAll('♭', 'b');
  const tokens = tokensOf(compact, /[a-g]#?/gi) ?? tokensOf(compact, /[a-gA-G][#b]?/g);
  if (!tokens) return null;
  const pitches = tokens.map((token, index) => nearestPitch(token, USUAL[index] ?? 60));
  const [fifth, fourth, third, second, first] = pitches;
  if (pitches.length !== 5 || !fifth || !fourth || !third || !second || !first) return null;
  return [fifth, fourth, third, second, first];
}

function tokensOf(text: string, pattern: RegExp): string[] | null {
  const tokens = text.match(pattern) ?? [];
  return tokens.length === 5 && tokens.join('') === text ? tokens : null;
}

function nearestPitch(token: string, usual: number): number {
  const letter = PITCH_CLASS[token[0]?.toLowerCase() ?? ''] ?? 0;
  const pitchClass = letter + (token.endsWith('#') ? 1 : token.length > 1 ? -1 : 0);
  const up = (((pitchClass - usual) % 12) + 12) % 12;
  return usual + (up > 6 ? up - 12 : up);
}
