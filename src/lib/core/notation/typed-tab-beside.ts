import { countWordsIn } from './typed-tab-count';
import { lettersIn } from './typed-tab-letters';
import type { Rational } from '../rhythm/rational';

/** A line of words just over or under a system. */
export interface TextLine {
  number: number;
  text: string;
}

/** Something on a line beside a system, where it stands over the rows' columns. */
export interface Beside<What> {
  what: What;
  /** Column of the rows' text, from 0; less for what stands left of them. */
  at: number;
  line: number;
  /** From 1 on its line. */
  column: number;
}

/** What the lines over and under a system say, each thing in the order in which it stands there. */
export interface BesideSystem {
  counts: readonly Beside<string>[];
  /** Note values, in whole notes. */
  lengths: readonly Beside<Rational>[];
  chords: readonly Beside<string>[];
  words: readonly Beside<string>[];
  /** Numbers of endings, and whether the line says in words that these are endings. */
  endings: readonly Beside<{ numbers: readonly number[]; isSaid: boolean }>[];
  triplets: readonly Beside<3>[];
}

export type LineShape = 'count' | 'letters' | 'chords' | 'endings' | 'triplets';

const CHORD = /^[A-G][#b]?(?:maj|min|m|M|dim|aug|sus|add|\d|[+#b°-])*(?:\/[A-G][#b]?)?$|^N\.?C\.?$/;
const TRIPLET = /^[|[(+-]*3[|\])+-]*$/;
const ENDING = /(\[?)([1-9](?:\s?[,&]\s?[1-9])*)(st|nd|rd|th)?(\s?(?:ending|time)s?)?([.):\]]*)/gi;
const LABEL = /^\s*(?:counts?|chords?|words?|lyrics?|rhythm)\s*:/i;

/** What kind of line stands beside a system, by what is on it; `null` when it could only be words. */
export function shapeOf(text: string): LineShape | null {
  const bare = text.replace(LABEL, '');
  const tokens = bare.split(/\s+/).filter((token) => !/^[|%/]*$/.test(token));
  if (tokens.length === 0) return null;
  if (endingsIn(bare)) return 'endings';
  if (tokens.every((token) => TRIPLET.test(token))) return 'triplets';
  const areChords = tokens.every((token) => CHORD.test(token.replace(/^\||\|$/g, '')));
  if (areChords && !areEighths(bare)) return 'chords';
  if (lettersIn(bare)) return 'letters';
  return countWordsIn(bare) ? 'count' : null;
}

/** Capital Es close together are eighths, far apart they are chords. */
function areEighths(text: string): boolean {
  if (!/^[E\s|]+$/.test(text)) return false;
  const places = [...text.matchAll(/E/g)].map(({ index }) => index);
  return places.some((place, index) => index > 0 && place - (places[index - 1] ?? 0) < 8);
}

/** `1.___  2.___`, `[1`, `1st ending`: numbers with something that tells them from a count. */
function endingsIn(text: string): { numbers: number[]; isSaid: boolean; at: number }[] | null {
  const bare = text.replace(/[_|]/g, ' ');
  const found = [...bare.matchAll(ENDING)];
  const letters = found.reduce((sum, match) => sum + match[0].replace(/\s/g, '').length, 0);
  const isMark = ([mark, bracket, , suffix, word, stop]: string[], end: number) =>
    mark !== undefined && Boolean(bracket || suffix || word || stop || text[end] === '_');
  if (found.length === 0 || letters !== bare.replace(/\s/g, '').length) return null;
  if (!found.every((match) => isMark(match, match.index + match[0].length))) return null;
  return found.map(([, bracket = '', numbers = '', , word = ''], index) => ({
    numbers: numbers.split(/[\s,&]+/).map(Number),
    isSaid: bracket !== '' || word !== '',
    at: found[index]?.index ?? 0,
  }));
}

/**
 * Sorts the lines beside a system. `aboveAt` and `belowAt` are the columns, from 1, at which the text of the nearest rows
 * begins. A line under the count is words, whatever it looks like.
 */
export function besideSystem(
  above: readonly TextLine[],
  below: readonly TextLine[],
  aboveAt: number,
  belowAt: number,
): { beside: BesideSystem; used: readonly TextLine[] } {
  const beside = {
    counts: [] as Beside<string>[],
    lengths: [] as Beside<Rational>[],
    chords: [] as Beside<string>[],
    words: [] as Beside<string>[],
    endings: [] as Beside<{ numbers: readonly number[]; isSaid: boolean }>[],
    triplets: [] as Beside<3>[],
  };
  const used: TextLine[] = [];
  const take = (line: TextLine, start: number, shape: LineShape | 'words') => {
    const text = line.text.replace(LABEL, (label) => ' '.repeat(label.length));
    const put = <What>(what: What, at: number): Beside<What> => ({
      ...{ what, at: at - (start - 1), line: line.number, column: at + 1 },
    });
    const tokens = () => [...text.matchAll(/[^\s|]+/g)].map((match) => put(match[0], match.index));
    if (shape === 'count')
      beside.counts.push(...(countWordsIn(text) ?? []).map((word) => put(word.text, word.at)));
    else if (shape === 'letters')
      beside.lengths.push(...(lettersIn(text) ?? []).map(({ length, at }) => put(length, at)));
    else if (shape === 'endings')
      beside.endings.push(
        ...(endingsIn(text) ?? []).map(({ numbers, isSaid, at }) => put({ numbers, isSaid }, at)),
      );
    else if (shape === 'triplets')
      beside.triplets.push(...[...text.matchAll(/3/g)].map(({ index }) => put(3 as const, index)));
    else if (shape === 'chords') beside.chords.push(...tokens().filter(({ what }) => !/^[%/]+$/.test(what)));
    else beside.words.push(...tokens().map((word) => ({ ...word, what: word.what.replaceAll('_', ' ') })));
    if (shape !== 'words') used.push(line);
  };
  for (const line of above) {
    const shape = shapeOf(line.text);
    if (shape && (shape !== 'count' || beside.counts.length === 0)) take(line, aboveAt, shape);
  }
  let isCounted = false;
  for (const line of below) {
    const shape = belowShape(line.text, isCounted || beside.counts.length > 0, isCounted);
    take(line, belowAt, shape);
    isCounted ||= shape === 'count';
  }
  return { beside, used };
}

function belowShape(text: string, hasCount: boolean, isUnderCount: boolean): LineShape | 'words' {
  const shape = shapeOf(text);
  if (shape === null || shape === 'chords' || (shape === 'count' && hasCount)) return 'words';
  return isUnderCount && shape !== 'letters' ? 'words' : shape;
}
