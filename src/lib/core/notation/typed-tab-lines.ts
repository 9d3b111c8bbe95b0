import { say } from '../../texts/typed-tab';
import { COMMON_TUNINGS, type Tuning } from '../tune/tuning';
import type { Warnings } from './reading';
import { besideSystem, shapeOf, type BesideSystem, type TextLine } from './typed-tab-beside';

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
  | { kind: 'heading'; line: number; letter: string | null; isRepeated: boolean }
  | { kind: 'block'; rows: TabRow[]; tuning: Tuning | null; beside: BesideSystem };

type Line = TextLine;

interface LabelledRow extends TabRow {
  letter: string | null;
  digit: number | null;
}

const TAB_STOP = 8;
/** Marks beside a fret number are part of the tab, and no reason to doubt it. */
const MARKS_AND_SPACE = /\s|[hpsbdmit/\\~=>(](?=[>(]?\d)|(?<=\d)\)/gi;
const LETTER_LABEL = /^\s*([A-Ga-g][#b♯♭]?)\s*(?=[|:-])[:\])]?/;
const DIGIT_LABEL = /^\s*([1-5])(?:st|nd|rd|th)?[:)\]]?\s*(?=[|-])/;

/** Sorts the lines of a text into titles, part headings and systems of five lines. Time grows with the text's length. */
export function typedItems(text: string, warnings: Warnings): TypedItem[] {
  const lines = text.split(/\r\n|\r|\n/).map((raw, index) => ({ number: index + 1, text: cleanLine(raw) }));
  return new ItemSorter(warnings).sort(withoutDoubleSpacing(lines));
}

/** Chords, endings, triplets, letters, the count, two lines of words: nobody sets more on one side of a system. */
const MOST_BESIDE = 8;

class ItemSorter {
  readonly #warnings: Warnings;
  readonly #items: TypedItem[] = [];
  readonly #systems: System[] = [];
  /** Lines of a system that is still open. */
  #group: Line[] = [];
  /** Lines of words since the last blank line, heading or system. */
  #run: Line[] = [];
  /** The system just over `#run`. */
  #above: System | null = null;
  #flipped = false;

  constructor(warnings: Warnings) {
    this.#warnings = warnings;
  }

  sort(lines: readonly Line[]): TypedItem[] {
    for (const [index, line] of lines.entries()) {
      if (isTabLine(line.text)) {
        this.#group.push(line);
        continue;
      }
      this.#closeGroup();
      const isOverTab = isTabLine(lines[index + 1]?.text ?? '');
      const heading = headingOf(line, isOverTab);
      if (heading) this.#items.push(heading);
      else if (line.text !== '')
        this.#items.push({ kind: 'text', line: line.number, text: line.text.trim() });
      if (heading || line.text === '') this.#closeRun();
      else this.#run.push(line);
    }
    this.#closeGroup();
    this.#closeRun();
    return this.#withBeside();
  }

  #closeRun(): void {
    this.#above?.below.push(...this.#run);
    this.#above = null;
    this.#run = [];
  }

  #closeGroup(): void {
    if (this.#group.length === 0) return;
    const { systems, flipped } = systemsOf(this.#group, this.#warnings, this.#flipped);
    this.#flipped = flipped;
    this.#group = [];
    this.#items.push(...systems.map(({ block }) => block));
    this.#systems.push(...systems);
    const [first, last] = [systems[0], systems.at(-1)];
    if (!first) return this.#closeRun();
    const { over, under } = shared(this.#run, this.#above !== null, this.#systems[0]);
    first.above.push(...over);
    this.#run = under;
    this.#closeRun();
    this.#above = last ?? null;
  }

  /** Every system with what its neighbouring lines say; those lines are not text any more. */
  #withBeside(): TypedItem[] {
    const used = new Set<number>();
    for (const { block, above, below, top, bottom } of this.#systems) {
      const found = besideSystem(above.slice(-MOST_BESIDE), below.slice(0, MOST_BESIDE), top, bottom);
      block.beside = found.beside;
      for (const { number } of found.used) used.add(number);
    }
    return this.#items.filter((item) => item.kind !== 'text' || !used.has(item.line));
  }
}

/** Lines between two systems that no blank line parts: counts stand where they stand in the first system. */
function shared(
  run: readonly Line[],
  isBetween: boolean,
  first: System | undefined,
): { over: Line[]; under: Line[] } {
  if (!isBetween) return { over: [...run], under: [] };
  const countsOver = first?.above.some(({ text }) => shapeOf(text) === 'count') ?? false;
  const isOver = ({ text }: Line) => {
    const shape = shapeOf(text);
    return shape === 'count' ? countsOver : shape !== null;
  };
  return { over: run.filter(isOver), under: run.filter((line) => !isOver(line)) };
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

/** Dashes, bar lines and numbers make up at least six tenths of what follows the label, marks beside numbers left out. */
export function isTabLine(text: string): boolean {
  if (!text.includes('--') && !(text.includes('|') && text.includes('-'))) return false;
  const body = withoutTail(text.replace(LETTER_LABEL, '')).replace(MARKS_AND_SPACE, '');
  const drawn = body.replace(/[^-|:0-9]/g, '').length;
  return body.includes('-') && drawn >= 2 && drawn >= 0.6 * body.length;
}

/** Cuts what people write after the last bar line: `x2`, `(repeat)`. */
function withoutTail(text: string): string {
  const end = text.lastIndexOf('|') + 1;
  return end === 0 || /[-0-9]{2}/.test(text.slice(end)) ? text : text.slice(0, end);
}

/** Indented as far as a chord over a system is, and no heading. */
const CHORD_INDENT = 3;

function headingOf(
  { number, text }: Line,
  isOverTab: boolean,
): Extract<TypedItem, { kind: 'heading' }> | null {
  const whole = text.trim();
  if (whole.length > 32) return null;
  const times = /[\s,]*\(?(?:x ?2|2 ?x|(?:play )?twice|repeat(?:ed)?)\)?\s*:?$/i;
  const isRepeated = times.test(whole);
  const trimmed = whole.replace(times, '').replace(/^[[(]|[\])]$/g, '');
  const heading = (letter: string | null) => ({ kind: 'heading' as const, line: number, letter, isRepeated });
  const named =
    /^(?:part|section)\s+([A-Za-z])\b\s*:?$/i.exec(trimmed) ??
    /^([A-Za-z])[\s-]+(?:part|section)\s*:?$/i.exec(trimmed) ??
    /^([A-Z])\d?\s*:$/.exec(trimmed) ??
    (isOverTab && text.length - whole.length >= CHORD_INDENT ? null : /^([A-Z])\.?$/.exec(trimmed));
  if (named?.[1]) return heading(named[1].toUpperCase());
  const isPart = /^\w+\s+(?:part|section)\s*:?$|^(?:verse|chorus|refrain)\s*\d?\s*:?$/i.test(trimmed);
  return isPart ? heading(null) : null;
}

type Block = Extract<TypedItem, { kind: 'block' }>;

interface System {
  block: Block;
  above: Line[];
  below: Line[];
  /** Columns, from 1, at which the text of the row on top and of the one at the bottom begins. */
  top: number;
  bottom: number;
}

const NOTHING_BESIDE: BesideSystem = {
  ...{ counts: [], lengths: [], chords: [], words: [], endings: [], triplets: [] },
};

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
): { systems: System[]; flipped: boolean } {
  const systems: System[] = [];
  let flipped = flippedBefore;
  const triplets = lines.length % 5 === 1 && shapeOf(lines[0]!.text) === 'triplets' ? lines.slice(0, 1) : [];
  const group = withoutRuler(lines.slice(triplets.length));
  const first = group[0];
  if (!first) return { systems, flipped };
  if (group.length % 5 !== 0) {
    // a lone row of dashes is a ruler under a title, not tab
    if (group.some(({ text }) => /[0-9|]/.test(text))) {
      const column = first.text.length - first.text.trimStart().length + 1;
      warnings.add(first.number, column, say.otherStrings(group.length));
    }
    return { systems, flipped };
  }
  for (let start = 0; start < group.length; start += 5) {
    const rows = labelledRows(group.slice(start, start + 5));
    const order = stringOrder(rows);
    flipped = order.flipped ?? flipped;
    const upright = flipped ? [...rows].reverse() : rows;
    systems.push({
      block: {
        kind: 'block',
        tuning: order.tuning,
        rows: upright.map(({ line, column, text }) => ({ line, column, text })),
        beside: NOTHING_BESIDE,
      },
      above: start === 0 ? triplets : [],
      below: [],
      top: rows[0]!.column,
      bottom: rows[4]!.column,
    });
  }
  return { systems, flipped };
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
