import {
  add,
  compare,
  divide,
  equal,
  multiply,
  rational,
  subtract,
  ZERO,
  type Rational,
} from '../../rhythm/rational';
import type { MeasureLabel } from '../../tune/tune';
import type { ScoreMeasure, ScoreNote } from '../score';
import { tupletRatio, type TupletRatio } from '../tuplet-ratio';
import type { AbcKey } from './abc-key';
import { escapedText } from './abc-source';
import { canBeSung } from './abc-words';

const UNIT: Rational = [1, 8];
const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];
const NATURAL = [0, 2, 4, 5, 7, 9, 11];
const MARKS: Record<number, string> = { [-1]: '_', 0: '=', 1: '^' };

/** A stretch of a measure in which the same notes sound. */
interface Slice {
  from: Rational;
  length: Rational;
  notes: ScoreNote[];
}

/** A measure as ABC writes it. */
interface WrittenNotes {
  music: string;
  /** The word under each written note or chord, rests left out: what a `w:` line counts. */
  words: (string | null)[];
}

/**
 * The notes of a measure as ABC writes them. Notes that end or begin while others sound are tied in pieces. A word that begins
 * with no note, or that no `w:` line can hold, stands over the music as a remark.
 */
export function writtenNotes(
  measure: ScoreMeasure,
  next: ScoreMeasure | undefined,
  key: AbcKey,
): WrittenNotes {
  const altered = new Set<string>();
  const slices = slicesOf(measure);
  const [music, words]: [string[], (string | null)[]] = [[], []];
  const sungAt = slices.map(({ from, notes }) =>
    notes.length > 0 ? wordAt(measure.labels, from) : undefined,
  );
  const labels = measure.labels.filter((label) => !sungAt.includes(label));
  let group = 0;
  let squeezed: Rational = [1, 1];
  for (const [index, slice] of slices.entries()) {
    const end = add(slice.from, slice.length);
    const ratio = group === 0 ? tupletRatio(slice.length) : null;
    if (ratio) {
      group = tupletLength(slices, index, ratio);
      squeezed = rational(ratio.actual, ratio.normal);
      if (group > 0) music.push(`(${ratio.actual}:${ratio.normal}:${group}`);
    }
    const isLast = index === slices.length - 1;
    const later = labels.findIndex(({ onset }) => compare(onset, end) >= 0);
    const over = labels.splice(0, isLast || later < 0 ? labels.length : later);
    const written = group > 0 ? multiply(slice.length, squeezed) : slice.length;
    const held = (note: ScoreNote) =>
      compare(add(note.onset, note.duration), end) > 0 ||
      (isLast &&
        next?.notes.some(({ pitch, tied, onset }) => tied && pitch === note.pitch && onset[0] === 0));
    const names = slice.notes.map((note) => ({
      name: nameOf(note.pitch, key, altered),
      tie: held(note) ? '-' : '',
    }));
    if (slice.notes.length > 0) words.push(sungAt[index]?.text ?? null);
    music.push(over.map(labelText).join('') + chordText(names, lengthText(written)));
    if (group > 0) group -= 1;
  }
  return { music: music.join(' ').replace(/(\(\d:\d:\d+) /g, '$1'), words };
}

/** The word sung with what begins there. */
function wordAt(labels: readonly MeasureLabel[], onset: Rational): MeasureLabel | undefined {
  return labels.find((one) => one.kind === 'word' && equal(one.onset, onset) && canBeSung(one.text));
}

function slicesOf({ notes, length }: ScoreMeasure): Slice[] {
  const points = [ZERO, length, ...notes.flatMap(({ onset, duration }) => [onset, add(onset, duration)])]
    .filter((point) => compare(point, length) <= 0)
    .sort(compare)
    .filter((point, index, all) => index === 0 || compare(all[index - 1] ?? ZERO, point) !== 0);
  return points.slice(0, -1).map((from, index) => ({
    from,
    length: subtract(points[index + 1] ?? length, from),
    notes: notes.filter(
      ({ onset, duration }) => compare(onset, from) <= 0 && compare(add(onset, duration), from) > 0,
    ),
  }));
}

/** How many slices from one on make up a whole tuplet; 0 when they make none that ABC can write. */
function tupletLength(slices: readonly Slice[], from: number, { actual }: TupletRatio): number {
  if (actual > 9) return 0;
  let sum = ZERO;
  for (let index = from; index < slices.length; index += 1) {
    sum = add(sum, slices[index]?.length ?? ZERO);
    if (tupletRatio(sum) === null) return index - from + 1;
  }
  return 0;
}

function lengthText(length: Rational): string {
  const [count, parts] = divide(length, UNIT);
  return `${count === 1 ? '' : count}${parts === 1 ? '' : `/${parts}`}`;
}

function chordText(names: readonly { name: string; tie: string }[], length: string): string {
  const [only] = names;
  if (!only) return `z${length}`;
  if (names.length === 1) return `${only.name}${length}${only.tie}`;
  return `[${names.map(({ name, tie }) => `${name}${length}${tie}`).join('')}]`;
}

/** A pitch with its mark where the key or an earlier note of the measure says another. */
function nameOf(pitch: number, key: AbcKey, altered: Set<string>): string {
  const spelled = [0, 1, -1]
    .flatMap((alteration) => {
      const step = NATURAL.indexOf((((pitch - alteration) % 12) + 12) % 12);
      const letter = LETTERS[step];
      return letter ? [{ letter, alteration, isKey: (key.alterations[letter] ?? 0) === alteration }] : [];
    })
    .sort((a, b) => Number(b.isKey) - Number(a.isKey))[0] ?? { letter: 'C', alteration: 0, isKey: true };
  const { letter, alteration, isKey } = spelled;
  const mark = isKey && !altered.has(letter) ? '' : (MARKS[alteration] ?? '');
  if (mark) altered.add(letter);
  const octave = Math.floor((pitch - alteration) / 12) - 5;
  if (octave >= 1) return mark + letter.toLowerCase() + "'".repeat(octave - 1);
  return mark + letter + ','.repeat(-octave);
}

function labelText({ kind, text }: MeasureLabel): string {
  const plain = escapedText(text).replaceAll('"', "'");
  return kind === 'chord' ? `"${plain}"` : `"^${plain}"`;
}
