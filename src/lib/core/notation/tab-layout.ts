import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { compare, subtract, toNumber } from '../rhythm/rational';
import { measureLabel } from '../tune/passage-name';
import type { Stretch } from '../tune/places';
import type { Strike, Technique } from '../tune/strike';
import { inSlots, slotsPerBeat } from './slots';

/** All lengths are in CSS pixels; y runs downwards from the top of the drawing. */
export interface TabLayout {
  width: number;
  height: number;
  /** Font sizes. */
  fretSize: number;
  wordSize: number;
  lines: TabLine[];
  /** The column to tint for each beat of the passage, in order: its first half, or first third in compound meters. */
  beats: Box[];
}

export interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface TabLine {
  /** Heights of the five strings, first string on top. */
  strings: number[];
  /** Where the strings end. */
  end: number;
  bars: number[];
  notes: TabNote[];
  brushes: { x: number; top: number; bottom: number }[];
  /** Technique words or letters under the notes. */
  words: TabText[];
  labels: TabText[];
  /** Behind and under the word that stands for covered or missing tab; one for the line, one for each measure without tab. */
  cover: Cover;
  missing: Cover[];
}

export interface TabText {
  x: number;
  y: number;
  text: string;
}

export interface TabNote extends TabText {
  plate: Box;
}

export interface Cover extends TabText {
  size: number;
  plate: Box;
}

/** A slot as wide as the drill gives it on a 390 px phone; the sizes below are drawn for it. */
const DRILL_SLOT = 390 / 8;
const DRILL_FRET = 30;
const LARGEST_FRET = 52;
const SMALLEST_TEXT = 13;
/** Narrowest slots: for one or two measures, for more, and for a whole tune at a glance. */
const LEAST_SLOT = { few: 40, many: 22, compact: 14 };
/** Room for whole technique words under neighbouring slots, or for letters. */
const WORD_SLOT = 40;
const LETTER_SLOT = 18;
const LABEL_HEIGHT = 20;

const WORDS: Partial<Record<Technique, string>> = {
  strike: 'strike',
  brush: 'brush',
  'drop-thumb': 'thumb',
  'hammer-on': 'hammer',
  'pull-off': 'pull',
  slide: 'slide',
};
/** The trade's letters; a plain strike and a brush's arrow need none. */
const LETTERS: Partial<Record<Technique, string>> = {
  'drop-thumb': 'T',
  'hammer-on': 'H',
  'pull-off': 'P',
  slide: 'S',
};

interface Sizes {
  slot: number;
  fret: number;
  word: number;
  gap: number;
  /** From the top of a line to its first string, and from its fifth string to the words' baseline. */
  above: number;
  below: number;
  label: number;
  lineHeight: number;
}

/**
 * Where everything of a tab drawing stands. One measure fills the width; more reflow into lines of 1, 2, 4 or 8 whose
 * slots all have the same width, so that a longer measure is a wider one.
 */
export function tabLayout(
  stretches: readonly Stretch[],
  meter: Meter,
  { width, compact = false }: { width: number; compact?: boolean },
): TabLayout {
  const rows = brokenIntoLines(stretches, meter, width, compact);
  const most = Math.max(1, ...rows.map((row) => slotsIn(row, meter)));
  const sizes = sizesFor(width / most, stretches.length > 1 && !isSeam(stretches));
  const lines = rows.map((row, index) => lineLayout(row, index * sizes.lineHeight, sizes, meter));
  return {
    width,
    height: Math.max(1, rows.length) * sizes.lineHeight,
    fretSize: sizes.fret,
    wordSize: sizes.word,
    lines,
    beats: rows.flatMap((row, index) => beatColumns(row, index * sizes.lineHeight, sizes, meter)),
  };
}

/** The numeral of every beat of a passage, counted in its own measure: a seam's are 2, 1. */
export function beatNumerals(stretches: readonly Stretch[]): number[] {
  return stretches.flatMap(({ fromBeat, toBeat }) =>
    Array.from({ length: Math.ceil(toBeat - fromBeat) }, (_, beat) => Math.floor(fromBeat) + beat + 1),
  );
}

function isSeam(stretches: readonly Stretch[]): boolean {
  return stretches.some(({ fromBeat, toBeat, figure }) => fromBeat > 0 || toBeat < figure.beats);
}

function slotsIn(stretches: readonly Stretch[], meter: Meter): number {
  const beats = stretches.reduce((sum, { fromBeat, toBeat }) => sum + toBeat - fromBeat, 0);
  return beats * slotsPerBeat(meter);
}

function brokenIntoLines(
  stretches: readonly Stretch[],
  meter: Meter,
  width: number,
  compact: boolean,
): Stretch[][] {
  const usual = meterShape(meter).beats * slotsPerBeat(meter);
  const total = slotsIn(stretches, meter);
  const least = compact ? LEAST_SLOT.compact : total <= 2 * usual ? LEAST_SLOT.few : LEAST_SLOT.many;
  const room = width / least;
  if (total <= Math.max(room, usual)) return stretches.length > 0 ? [[...stretches]] : [];
  const perLine = [8, 4, 2].find((count) => count * usual <= room && count <= stretches.length) ?? 1;
  const lines: Stretch[][] = [];
  for (let start = 0; start < stretches.length; start += perLine) {
    lines.push(stretches.slice(start, start + perLine));
  }
  return lines;
}

function sizesFor(slot: number, labelled: boolean): Sizes {
  const grown = DRILL_FRET + Math.max(0, slot - DRILL_SLOT) * 0.3;
  const fret = Math.round(Math.max(SMALLEST_TEXT, Math.min(grown, slot * 0.9, LARGEST_FRET)));
  const scale = fret / DRILL_FRET;
  const word = Math.round(Math.max(SMALLEST_TEXT, Math.min(14 * scale, 20)));
  const gap = 24 * scale;
  const label = labelled ? LABEL_HEIGHT : 0;
  const above = 26 * scale + label;
  const below = slot < LETTER_SLOT ? 14 * scale : 16 * scale + word;
  return { slot, fret, word, gap, above, below, label, lineHeight: Math.ceil(above + 4 * gap + below + 8) };
}

function lineLayout(row: readonly Stretch[], top: number, sizes: Sizes, meter: Meter): TabLine {
  const first = top + sizes.above;
  const strings = [0, 1, 2, 3, 4].map((index) => first + index * sizes.gap);
  const end = slotsIn(row, meter) * sizes.slot;
  const middle = strings[2]!;
  // the middle of a measure, so that the word does not break a bar line
  const whole = row.slice(0, Math.floor((row.length - 1) / 2));
  const shown = row[whole.length];
  const center = (slotsIn(whole, meter) + (shown ? slotsIn([shown], meter) / 2 : 0)) * sizes.slot;
  const line: TabLine = {
    strings,
    end,
    bars: row[0]?.fromBeat === 0 ? [2] : [],
    notes: [],
    brushes: [],
    words: [],
    labels: [],
    cover: coverAt('hidden', center, middle, Math.max(SMALLEST_TEXT, sizes.fret * (2 / 3))),
    missing: [],
  };
  let left = 0;
  for (const stretch of row) {
    const width = slotsIn([stretch], meter) * sizes.slot;
    if (stretch.toBeat === stretch.figure.beats) line.bars.push(Math.min(left + width, end - 2));
    if (sizes.label)
      line.labels.push({ x: left + 5, y: top + SMALLEST_TEXT + 2, text: measureLabel(stretch) });
    if (stretch.figure.strikes) drawStrikes(line, stretch, left, sizes, meter);
    else line.missing.push(coverAt(width < 90 ? 'no tab' : 'no tab yet', left + width / 2, middle, 15));
    left += width;
  }
  return line;
}

function coverAt(text: string, x: number, y: number, size: number): Cover {
  const width = text.length * size * 0.56 + size;
  return {
    text,
    x,
    y: y + size * 0.34,
    size,
    plate: { x: x - width / 2, y: y - size * 0.7, width, height: size * 1.4 },
  };
}

function drawStrikes(line: TabLine, stretch: Stretch, left: number, sizes: Sizes, meter: Meter): void {
  const from = beatsToWholeNotes(meter, stretch.fromBeat);
  const to = beatsToWholeNotes(meter, stretch.toBeat);
  for (const strike of stretch.figure.strikes ?? []) {
    if (compare(strike.onset, from) < 0 || compare(strike.onset, to) >= 0) continue;
    const slot = toNumber(inSlots(subtract(strike.onset, from), meter));
    // a little left of the slot's middle, where the beat's numeral stands below
    const x = Math.max(left + (slot + 0.45) * sizes.slot, left + plateWidth(strike.fret, sizes.fret) / 2 + 4);
    if (strike.technique === 'brush') drawBrush(line, strike, x, sizes);
    else line.notes.push(noteAt(strike, x, line, sizes));
    const word = (sizes.slot < WORD_SLOT ? LETTERS : WORDS)[strike.technique];
    if (word && sizes.slot >= LETTER_SLOT) {
      const half = word.length * sizes.word * 0.27;
      line.words.push({ x: Math.max(x, half + 2), y: line.strings[4]! + sizes.below, text: word });
    }
  }
}

function plateWidth(fret: number, size: number): number {
  return size * (fret > 9 ? 1.3 : 0.74);
}

function noteAt({ string, fret }: Strike, x: number, line: TabLine, { fret: size }: Sizes): TabNote {
  const y = line.strings[string - 1]!;
  const width = plateWidth(fret, size);
  return {
    x,
    y: y + size / 3,
    text: String(fret),
    plate: { x: x - width / 2, y: y - size * 0.43, width, height: size * 0.86 },
  };
}

/** An arrow from the brush's first string across the next two; a fretted brush shows its fret at the tail. */
function drawBrush(line: TabLine, strike: Strike, x: number, sizes: Sizes): void {
  const start = line.strings[strike.string - 1]!;
  const last = line.strings[Math.min(3, strike.string + 1)]!;
  if (strike.fret > 0) line.notes.push(noteAt(strike, x, line, sizes));
  line.brushes.push({
    x,
    top: start + (strike.fret > 0 ? sizes.fret * 0.5 : -sizes.gap * 0.38),
    bottom: last + sizes.gap * 0.38,
  });
}

function beatColumns(row: readonly Stretch[], top: number, sizes: Sizes, meter: Meter): Box[] {
  const perBeat = slotsPerBeat(meter) * sizes.slot;
  const share = meterShape(meter).division === 2 ? 2 : 3;
  const first = top + sizes.above - 0.75 * sizes.gap;
  const columns: Box[] = [];
  let left = 0;
  for (const { fromBeat, toBeat } of row) {
    for (let beat = fromBeat; beat < toBeat; beat += 1) {
      const x = left + (beat - fromBeat) * perBeat;
      columns.push({ x, y: first, width: perBeat / share, height: 5.5 * sizes.gap });
    }
    left += (toBeat - fromBeat) * perBeat;
  }
  return columns;
}
