import type { ScoreMeter } from '../score';
import { childrenOf, numberAt, textAt, type XmlElement } from './xml-tree';

export const LABEL_MAX = 100;

const MAJOR_BY_FIFTHS = ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'];
/** How many fifths the tonic of a mode lies above that of the major key with the same signature. */
export const MODES: Readonly<Record<string, number>> = {
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
const BY_FIFTHS = ['Fb', ...MAJOR_BY_FIFTHS, 'G#', 'D#', 'A#', 'E#', 'B#'];

/** A `<key>` in words: `G`, `E minor`; `null` for a signature without a name. */
export function keyWords(key: XmlElement | undefined): string | null {
  const fifths = numberAt(key, 'fifths');
  if (fifths === null || fifths < -7 || fifths > 7) return null;
  const mode = textAt(key, 'mode') ?? 'major';
  const tonic = BY_FIFTHS[fifths + 8 + (MODES[mode] ?? 0)];
  return tonic ? tonic + (mode === 'major' || MODES[mode] === undefined ? '' : ` ${mode}`) : null;
}

/** The number of fifths and the mode that a key in words asks for; C without a mode when the words are no key. */
export function keySignature(words: string | null): { fifths: number; mode: string | null } {
  const match = /^([A-G][#b]?)\s*([a-z]*)/.exec(words ?? '');
  const mode = MODES[match?.[2] ?? ''] === undefined ? null : (match?.[2] ?? null);
  const fifths = BY_FIFTHS.indexOf(match?.[1] ?? 'C') - 8 - (MODES[mode ?? ''] ?? 0);
  return match && Math.abs(fifths) <= 7 ? { fifths, mode: mode ?? 'major' } : { fifths: 0, mode: null };
}

/** How players write the kinds of chord of the standard, after the root. */
const KINDS: Readonly<Record<string, string>> = {
  major: '',
  minor: 'm',
  augmented: '+',
  diminished: 'dim',
  dominant: '7',
  'major-seventh': 'maj7',
  'minor-seventh': 'm7',
  'diminished-seventh': 'dim7',
  'half-diminished': 'm7b5',
  'major-sixth': '6',
  'minor-sixth': 'm6',
  'dominant-ninth': '9',
  'suspended-second': 'sus2',
  'suspended-fourth': 'sus4',
  power: '5',
};

/** The `<kind>` of a chord by what follows its root; `other` where the standard has no name. */
export function kindOf(suffix: string): string {
  return Object.keys(KINDS).find((kind) => KINDS[kind] === suffix) ?? 'other';
}

const accidental = (alter: number | null) => (alter === 1 ? '#' : alter === -1 ? 'b' : '');

/** A `<harmony>` as players write it: `Am7`, `D/F#`; `null` when it names no chord. */
export function chordWords(harmony: XmlElement): string | null {
  const root = textAt(harmony, 'root', 'root-step');
  const plain = textAt(harmony, 'function');
  const [kind] = childrenOf(harmony, 'kind');
  if (!root) return plain?.slice(0, LABEL_MAX) ?? null;
  const suffix = kind?.attributes['text'] ?? KINDS[kind?.text.trim() ?? ''] ?? '';
  const bass = textAt(harmony, 'bass', 'bass-step');
  const over = bass ? `/${bass}${accidental(numberAt(harmony, 'bass', 'bass-alter'))}` : '';
  const whole = root + accidental(numberAt(harmony, 'root', 'root-alter')) + suffix + over;
  return whole.slice(0, LABEL_MAX);
}

/** A `<time>`: several numbers of beats over one unit are added up. `null` for free meter or what cannot be read. */
export function meterOf(time: XmlElement): ScoreMeter | null {
  const unit = numberAt(time, 'beat-type');
  const count = childrenOf(time, 'beats')
    .flatMap(({ text }) => text.split('+'))
    .reduce((sum, part) => sum + Number(part.trim()), 0);
  if (unit === null || ![1, 2, 4, 8, 16, 32].includes(unit)) return null;
  return Number.isInteger(count) && count > 0 && count <= 64 ? { count, unit } : null;
}
