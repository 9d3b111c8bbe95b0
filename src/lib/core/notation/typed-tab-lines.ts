import { numberWord } from '../tune/number-words';
import { COMMON_TUNINGS, type Tuning } from '../tune/tuning';
import type { Warnings } from './reading';

/** One line of a system, from its opening bar line (or its first character after the label) on. */
export interface TabRow {
  line: number;
  /** Column of `text[0]`, from 1. */
  column: number;
  text: string;
}

/** What a typed text holds, in its order. A block has five rows, first string first. */
export type TypedItem =
  | { kind: 'text'; line: number; text: string }
  | { kind: 'heading'; line: number; letter: string | null }
  | { kind: 'block'; rows: TabRow[]; tuning: Tuning | null };

interface Line {
  number: number;
  text: string;
}

interface LabelledRow extends TabRow {
  letter: string | null;
  digit: number | null;
}

const TAB_STOP = 8;
const LETTER_LABEL = /^\s*([A-Ga-g][#b♯♭]?)\s*(?=[|:-])[:\])]?/;
const DIGIT_LABEL = /^\s*([1-5])(?:st|nd|rd|th)?[:)\]]?\s*(?=[|-])/;

/** Sorts the lines of a text into titles, part headings and systems of five lines. Time grows with the text's length. */
export function typedItems(text: string, warnings: Warnings): TypedItem[] {
  const lines = text.split(/\r\n|\r|\n/).map((raw, index) => ({ number: index + 1, text: cleanLine(raw) }));
  const items: TypedItem[] = [];
  let group: Line[] = [];
  let flipped = false;
  const closeGroup = () => {
    const found = systemsOf(group, warnings, flipped);
    flipped = found.flipped;
    items.push(...found.blocks);
    group = [];
  };
  for (const line of withoutDoubleSpacing(lines)) {
    if (isTabLine(line.text)) {
      group.push(line);
      continue;
    }
    closeGroup();
    const heading = headingOf(line);
    if (heading) items.push(heading);
    else if (line.text !== '') items.push({ kind: 'text', line: line.number, text: line.text.trim() });
  }
  closeGroup();
  return items;
}

function cleanLine(raw: string): string {
  let text = '';
  for (const part of raw.replace(/^\uFEFF/, '').split(/(\t)/)) {
    text += part === '\t' ? ' '.repeat(TAB_STOP - (text.length % TAB_STOP)) : part;
  }
  return text
    .replace(/[‐‑‒–—―−─━﹣-]/g, '-')
    .replace(/[│┃¦｜]/g, '|')
    .replace(/\u00A0/g, ' ')
    .trimEnd();
}

/** Without the blank lines, when every line of tab stands alone between blank ones (text pasted with double spacing). */
function withoutDoubleSpacing(lines: Line[]): Line[] {
  const tab = lines.map(({ text }) => isTabLine(text));
  const alone = tab.every((here, index) => !(here && tab[index + 1]));
  if (!alone || tab.filter(Boolean).length < 5) return lines;
  return lines.filter(({ text }) => text !== '');
}

/** Dashes, bar lines and numbers make up at least six tenths of what follows the label. */
function isTabLine(text: string): boolean {
  if (!text.includes('--') && !(text.includes('|') && text.includes('-'))) return false;
  const body = withoutTail(text.replace(LETTER_LABEL, '')).replace(/\s/g, '');
  const drawn = body.replace(/[^-|:0-9]/g, '').length;
  return body.includes('-') && drawn >= 2 && drawn >= 0.6 * body.length;
}

/** Cuts what people write after the last bar line: `x2`, `(repeat)`. */
function withoutTail(text: string): string {
  const end = text.lastIndexOf('|') + 1;
  return end === 0 || /[-0-9]{2}/.test(text.slice(end)) ? text : text.slice(0, end);
}

function headingOf({ number, text }: Line): TypedItem | null {
  const trimmed = text.trim().replace(/^[[(]|[\])]$/g, '');
  if (trimmed.length > 24) return null;
  const named =
    /^(?:part|section)\s+([A-Za-z])\b\s*:?$/i.exec(trimmed) ??
    /^([A-Za-z])[\s-]+(?:part|section)\s*:?$/i.exec(trimmed) ??
    /^([A-Z])\s*[:.]?$/.exec(trimmed);
  if (named?.[1]) return { kind: 'heading', line: number, letter: named[1].toUpperCase() };
  if (/^\w+\s+(?:part|section)\s*:?$/i.test(trimmed)) return { kind: 'heading', line: number, letter: null };
  return null;
}

type Block = Extract<TypedItem, { kind: 'block' }>;

/** Without a row of bare dashes above or below barred lines: a ruler, not a string. */
function withoutRuler(group: Line[]): Line[] {
  if (group.length % 5 !== 1) return group;
  const bare = ({ text }: Line) => /^[\s-]*$/.test(text);
  const barred = group.filter(({ text }) => text.includes('|')).length === group.length - 1;
  if (barred && bare(group[0]!)) return group.slice(1);
  return barred && bare(group[group.length - 1]!) ? group.slice(0, -1) : group;
}

function systemsOf(
  lines: Line[],
  warnings: Warnings,
  flippedBefore: boolean,
): { blocks: Block[]; flipped: boolean } {
  const blocks: Block[] = [];
  let flipped = flippedBefore;
  const group = withoutRuler(lines);
  const first = group[0];
  if (!first) return { blocks, flipped };
  if (group.length % 5 !== 0) {
    // a lone row of dashes is a ruler under a title, not tab
    if (group.some(({ text }) => /[0-9|]/.test(text))) {
      const seen = numberWord(group.length);
      const column = first.text.length - first.text.trimStart().length + 1;
      warnings.add(first.number, column, `five strings expected, ${seen} seen; this system is left out`);
    }
    return { blocks, flipped };
  }
  for (let start = 0; start < group.length; start += 5) {
    const rows = labelledRows(group.slice(start, start + 5));
    const order = stringOrder(rows);
    flipped = order.flipped ?? flipped;
    const upright = flipped ? [...rows].reverse() : rows;
    blocks.push({
      kind: 'block',
      tuning: order.tuning,
      rows: upright.map(({ line, column, text }) => ({ line, column, text })),
    });
  }
  return { blocks, flipped };
}

function labelledRows(lines: Line[]): LabelledRow[] {
  const digits = lines.map(({ text }) => Number(DIGIT_LABEL.exec(text)?.[1] ?? 0)).join('');
  const numbered = digits === '12345' || digits === '54321';
  const rows = lines.map(({ number, text }) => {
    const label = numbered ? DIGIT_LABEL.exec(text) : LETTER_LABEL.exec(text);
    const start = label?.[0].length ?? 0;
    return {
      line: number,
      column: start + 1,
      text: withoutTail(text).slice(start),
      letter: numbered ? null : (label?.[1]?.replace('♯', '#').replace('♭', 'b') ?? null),
      digit: numbered ? Number(label?.[1]) : null,
    };
  });
  return alignedRows(rows);
}

/**
 * Cuts the rows at one place: each at its own opening bar line when all have one there (labels differ in length),
 * else all at the same column.
 */
function alignedRows(rows: LabelledRow[]): LabelledRow[] {
  const indents = rows.map(({ text }) => text.length - text.trimStart().length);
  const barFirst = rows.every(({ text }, index) => text[indents[index]!] === '|');
  const left = Math.min(...rows.map(({ column }, index) => column + indents[index]!));
  return rows.map((row, index) => {
    const cut = barFirst ? indents[index]! : left - row.column;
    const text = cut < 0 ? ' '.repeat(-cut) + row.text : row.text.slice(cut);
    return { ...row, text, column: row.column + cut };
  });
}

/** `flipped` when the fifth string is on top, `null` when the labels do not say. */
function stringOrder(rows: LabelledRow[]): { flipped: boolean | null; tuning: Tuning | null } {
  const top = rows[0];
  const bottom = rows[4];
  if (top?.digit) return { flipped: top.digit === 5, tuning: null };
  if (!top?.letter || !bottom?.letter) return { flipped: null, tuning: null };
  const letters = rows.map(({ letter }) => (letter ?? '').toLowerCase());
  const upright = tuningOf([...letters].reverse().join(''));
  const upsideDown = tuningOf(letters.join(''));
  if (upright) return { flipped: false, tuning: upright };
  if (upsideDown) return { flipped: true, tuning: upsideDown };
  const short = [top.letter, bottom.letter].map((letter) => letter === letter.toLowerCase());
  return { flipped: short[0] === short[1] ? null : short[0] === true, tuning: null };
}

function tuningOf(letters: string): Tuning | null {
  return COMMON_TUNINGS.find(({ name }) => name.toLowerCase() === letters)?.tuning ?? null;
}

/** A common tuning that a line of text names: `Tuning: gDGBD`. */
export function tuningNamedIn(text: string): Tuning | null {
  const words = text.split(/[\s,:;()]+/);
  return COMMON_TUNINGS.find(({ name }) => words.includes(name))?.tuning ?? null;
}
