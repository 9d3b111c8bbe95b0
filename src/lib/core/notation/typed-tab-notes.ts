import { say as sayTechnique } from '../../texts/techniques';
import { say } from '../../texts/typed-tab';
import { FRET_MAX } from '../tune/limits';
import type { Technique, Weight } from '../tune/strike';
import type { StringNumber } from '../tune/tuning';
import type { Warnings } from './reading';

/** What a mark before a number says: a technique, or whether the thumb or a finger of the right hand plays it. */
export type TypedMark = Technique | 'thumb' | 'finger';

/** A fret number where it was typed. */
export interface TypedNote {
  string: StringNumber;
  fret: number;
  /** From 0 at the left bar line. */
  column: number;
  digits: 1 | 2;
  mark: TypedMark | null;
  weight: Weight | null;
  line: number;
  /** From 1 on its line. */
  lineColumn: number;
}

/** What one row holds between two bar lines. */
export interface TypedCell {
  string: StringNumber;
  text: string;
  line: number;
  /** Of `text[0]` on its line, from 1. */
  lineColumn: number;
}

/** The trade's letters, in either case, and three of our own for what the place in the beat does not say: `d`, `t`, `m`. */
const MARKS: Readonly<Record<string, TypedMark>> = {
  h: 'hammer-on',
  p: 'pull-off',
  s: 'slide',
  sl: 'slide',
  '/': 'slide',
  '\\': 'slide',
  d: 'drop-thumb',
  t: 'thumb',
  m: 'finger',
  i: 'finger',
  br: 'brush',
};
const TOKENS = /\d+|sl|br|[hpsdtmi/\\]|[>~=()]|[^-\s\d:*.o]/gi;

/** The notes of a cell. A mark holds for the next number; `(2)` is a ghost, `>2` an accent, `~2` rings on from before. */
export function notesInCell(cell: TypedCell, warnings: Warnings): TypedNote[] {
  const notes: TypedNote[] = [];
  let mark: { says: TypedMark; text: string; at: number } | null = null;
  let isOpen = false;
  let isAccent = false;
  let heldAt = -2;
  const warn = (at: number, what: string) => warnings.add(cell.line, cell.lineColumn + at, what);
  for (const match of cell.text.matchAll(TOKENS)) {
    const found = match[0];
    const at = match.index;
    const says = MARKS[found.toLowerCase()];
    if (isDigit(found)) {
      const isGhost = isOpen && cell.text[at + found.length] === ')';
      const weight = isGhost ? 'ghost' : isAccent ? 'accent' : null;
      const held = heldAt === at - 1 ? 'tie' : null;
      const before = notes.length;
      for (const note of fretsIn(found, at, warn)) {
        const isFirst = notes.length === before;
        notes.push({
          ...note,
          string: cell.string,
          mark: isFirst ? (mark?.says ?? held) : null,
          weight: isFirst ? weight : null,
          line: cell.line,
          lineColumn: cell.lineColumn + note.column,
        });
      }
      mark = null;
      isOpen = isAccent = false;
    } else if (says) mark = { says, text: found, at };
    else if (found === '(') isOpen = true;
    else if (found === '>') isAccent = true;
    else if (found === '~' || found === '=') heldAt = at;
    else if (found !== ')') warn(at, say.unknownMark(found));
  }
  if (mark) warn(mark.at, noFretAfter(mark.says, mark.text));
  return notes;
}

function isDigit(found: string): boolean {
  return found >= '0' && found < ':';
}

function noFretAfter(says: TypedMark, text: string): string {
  if (says === 'thumb' || says === 'finger') return say.noFretAfterMark(text);
  return say.noFretAfter(sayTechnique.names[says]);
}

/** One number of two digits is a fret; anything longer, or beyond the neck, is notes side by side. */
function fretsIn(
  found: string,
  at: number,
  warn: (at: number, what: string) => void,
): { fret: number; column: number; digits: 1 | 2 }[] {
  const together = Number(found);
  if (found.length === 1) return [{ fret: together, column: at, digits: 1 }];
  if (found.length === 2 && !found.startsWith('0')) {
    if (together <= FRET_MAX) return [{ fret: together, column: at, digits: 2 }];
    warn(at, say.pastTheNeck(found, FRET_MAX, [...found]));
  }
  return [...found].map((digit, index) => ({ fret: Number(digit), column: at + index, digits: 1 }));
}
