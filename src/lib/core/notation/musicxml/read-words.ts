import { keyWords } from '../key-words';
import type { ScoreMeter } from '../score';
import { childrenOf, numberAt, textAt, type XmlElement } from './xml-tree';

export const LABEL_MAX = 100;

/** A `<key>` in words. */
export function keyOf(key: XmlElement | undefined): string | null {
  const sharps = numberAt(key, 'fifths');
  return sharps === null ? null : keyWords(sharps, textAt(key, 'mode') ?? 'major');
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
