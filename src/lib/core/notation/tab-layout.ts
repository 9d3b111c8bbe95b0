import { say } from '../../texts/drawn-tab';
import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { compare } from '../rhythm/rational';
import { measureLabel } from '../tune/passage-name';
import { isPickup } from '../tune/pickup';
import type { Stretch } from '../tune/places';
import { STAFF_LINES, clefSize, drawStaff, stepY } from './draw-staff';
import { columnX, countedSlots, drawTab, type Spot } from './draw-tab';
import { slotsPerBeat } from './slots';
import { boxPath, discPath, emptyInk, px, type Box, type Cover, type TabInk, type TabText } from './tab-ink';
import {
  brokenIntoLines,
  FINGER_SLOT,
  isLabelled,
  isMelody,
  LETTER_SLOT,
  sizeNeeds,
  slotsIn,
  SMALLEST_TEXT,
  tabSizes,
  type TabSizes,
} from './tab-sizes';

export interface TabLayout {
  width: number;
  height: number;
  /** From the top of a line to the top of the next. */
  lineHeight: number;
  /** Font sizes. */
  fretSize: number;
  clefSize: number;
  wordSize: number;
  lines: TabLine[];
  /** The column to tint for each beat of the passage, in order: its first half, or first third in compound meters. */
  beats: Box[];
  /** Of each stretch, in order, from the top of its line to the top of the next. */
  measures: Box[];
}

/** Strings and staffs, bar lines and what is around them stay when the tab is hidden; `ink` goes. */
export interface TabLine {
  /** Heights of the five strings, first string on top. */
  strings: number[];
  /** Where the strings end. */
  end: number;
  /** Path data: the long strings, the short string, its pip, staffs, bar lines, thick bar lines with repeat dots. */
  long: string;
  short: string;
  pips: string;
  staffs: string;
  bars: string;
  heavy: string;
  ink: TabInk;
  labels: TabText[];
  chords: TabText[];
  words: TabText[];
  /** The count under the beats, and what is counted between them. */
  counts: TabText[];
  between: TabText[];
  /** The letter that stands on the G line of a staff, with an 8 below it where it is written an octave higher. */
  clefs: TabText[];
  /** Behind and under the word that stands for covered or missing music; one for the line, one for each measure that has none. */
  cover: Cover;
  missing: Cover[];
}

export interface TabDrawing {
  width: number;
  /** A whole tune at a glance: smaller, more measures to a line. */
  compact?: boolean;
  /** The count under the beats; otherwise something else counts them. */
  counted?: boolean;
  /** How often the run is played: 2 and more put it between repeat signs. */
  times?: number;
}

/** A line of tab. A run that is played several times opens in one row and closes in the same or a later one. */
export interface TabRow {
  stretches: readonly Stretch[];
  repeat: Repeat | null;
}

export interface Repeat {
  opens: boolean;
  /** How often the run has been played when it ends here; 0: it does not. */
  closes: number;
}

/** Where a melody is called what it is in full. */
const WIDE_TAG = 170;

/**
 * Where everything of a drawing stands. One measure fills the width; more reflow into lines of 1, 2, 4 or 8 whose
 * slots all have the same width, so that a longer measure is a wider one. A measure that has pitches and no tab is drawn
 * as melody, on a staff.
 */
export function tabLayout(
  stretches: readonly Stretch[],
  meter: Meter,
  { width, compact = false, counted = true, times = 1 }: TabDrawing,
): TabLayout {
  const lines = brokenIntoLines(stretches, meter, width, compact);
  const sizes = tabSizes(sizeNeeds(stretches, meter), width / mostSlots(lines, meter), counted);
  return { ...layoutOfRows(rowsOf(lines, times), meter, sizes), width };
}

/** Lines of one run of measures, between repeat signs when the run is played several times. */
export function rowsOf(lines: readonly (readonly Stretch[])[], times: number): TabRow[] {
  const last = lines.length - 1;
  return lines.map((stretches, index) => ({
    stretches,
    repeat: times > 1 ? { opens: index === 0, closes: index === last ? times : 0 } : null,
  }));
}

/** Slots of the longest line. */
export function mostSlots(lines: readonly (readonly Stretch[])[], meter: Meter): number {
  return Math.max(1, ...lines.map((line) => slotsIn(line, meter)));
}

/** Where everything of the given lines stands, in one drawing. */
export function layoutOfRows(rows: readonly TabRow[], meter: Meter, sizes: TabSizes): TabLayout {
  const isNamed = isLabelled(rows.flatMap(({ stretches }) => [...stretches]));
  const lines = rows.map(({ stretches, repeat }, index) =>
    lineLayout(stretches, index * sizes.lineHeight, sizes, meter, { repeat, isNamed }),
  );
  return {
    width: Math.max(0, ...rows.map(({ stretches }) => slotsIn(stretches, meter))) * sizes.slot,
    height: Math.max(1, rows.length) * sizes.lineHeight,
    lineHeight: sizes.lineHeight,
    fretSize: sizes.fret,
    clefSize: clefSize(sizes),
    wordSize: sizes.word,
    lines,
    beats: rows.flatMap(({ stretches }, index) =>
      beatColumns(stretches, index * sizes.lineHeight, sizes, meter),
    ),
    measures: rows.flatMap(({ stretches }, index) =>
      measureBoxes(stretches, index * sizes.lineHeight, sizes, meter),
    ),
  };
}

/** The numeral of every beat of a passage, counted in its own measure: a seam's are 2, 1. */
export function beatNumerals(stretches: readonly Stretch[]): number[] {
  return stretches.flatMap(({ fromBeat, toBeat }) =>
    Array.from({ length: Math.ceil(toBeat - fromBeat) }, (_, beat) => Math.floor(fromBeat) + beat + 1),
  );
}

function lineLayout(
  row: readonly Stretch[],
  lineTop: number,
  sizes: TabSizes,
  meter: Meter,
  { repeat, isNamed }: { repeat: Repeat | null; isNamed: boolean },
): TabLine {
  const top = lineTop + sizes.first;
  const strings = sizes.strings.map((at) => top + at);
  const end = slotsIn(row, meter) * sizes.slot;
  // the middle of a measure, so that the word does not break a bar line
  const whole = row.slice(0, Math.floor((row.length - 1) / 2));
  const shown = row[whole.length];
  const center = (slotsIn(whole, meter) + (shown ? slotsIn([shown], meter) / 2 : 0)) * sizes.slot;
  const line: TabLine = {
    strings,
    end,
    ...{ long: '', short: '', pips: '', staffs: '', bars: '', heavy: '' },
    ink: emptyInk(),
    ...{ labels: [], chords: [], words: [], counts: [], between: [], clefs: [] },
    cover: coverAt(say.hidden, center, strings[2] ?? top, Math.max(SMALLEST_TEXT, sizes.fret * (2 / 3))),
    missing: [],
  };
  let left = 0;
  for (const [index, stretch] of row.entries()) {
    const width = slotsIn([stretch], meter) * sizes.slot;
    const span = {
      from: beatsToWholeNotes(meter, stretch.fromBeat),
      to: beatsToWholeNotes(meter, stretch.toBeat),
    };
    const spot: Spot = { span, left, top, width, sizes, meter };
    const before = row[index - 1];
    drawGround(line, stretch, before, spot);
    drawBars(line, stretch, { before, after: row[index + 1] }, spot, end);
    drawTexts(line, stretch, { before, isNamed }, spot, lineTop);
    if (stretch.figure.strikes) drawTab(line.ink, stretch.figure.strikes, spot);
    else if (stretch.figure.melody) drawStaff(line.ink, stretch.figure.melody, spot);
    else {
      const text = width < 90 ? say.noTab.narrow : say.noTab.wide;
      line.missing.push(coverAt(text, left + width / 2, strings[2] ?? top, 15));
    }
    left += width;
  }
  if (repeat) drawRepeat(line, repeat, { from: pickupSlots(row, meter) * sizes.slot, lineTop, sizes });
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

/** The strings, or a staff. The short string begins at a pip, as it does on the neck. */
function drawGround(line: TabLine, stretch: Stretch, before: Stretch | undefined, spot: Spot): void {
  const { left, width, sizes, top } = spot;
  const right = px(left + width);
  if (isMelody(stretch)) {
    for (const step of STAFF_LINES) line.staffs += `M${px(left)} ${px(stepY(step, spot))}H${right}`;
    const isNew = !before || !isMelody(before);
    if (isNew && sizes.slot >= FINGER_SLOT) {
      const x = left + 2;
      line.clefs.push({ x, y: stepY(2, spot) + sizes.space * 0.45, text: 'G' });
      if (sizes.octave) line.clefs.push({ x: x + 2, y: stepY(-2, spot) + sizes.space * 0.6, text: '8' });
    }
    return;
  }
  for (const at of sizes.strings.slice(0, 4)) line.long += `M${px(left)} ${px(top + at)}H${right}`;
  const short = top + (sizes.strings[4] ?? 0);
  const starts = !before || isMelody(before);
  const pip = Math.max(2.5, sizes.gap * 0.14);
  line.short += `M${px(left + (starts ? 3 + pip * 2 : 0))} ${px(short)}H${right}`;
  if (starts) line.pips += discPath(left + 3 + pip, short, pip);
}

/** Bar lines: single, and two thin ones where another part begins. */
function drawBars(
  line: TabLine,
  stretch: Stretch,
  { before, after }: { before: Stretch | undefined; after: Stretch | undefined },
  spot: Spot,
  end: number,
): void {
  const { left, width, sizes, top } = spot;
  const [from, to] = isMelody(stretch)
    ? [stepY(8, spot), stepY(0, spot)]
    : [top, top + (sizes.strings[4] ?? 0)];
  const bar = (x: number) => `M${px(x)} ${px(from)}V${px(to)}`;
  if (!before && stretch.fromBeat === 0) line.bars += bar(left + 1);
  if (stretch.toBeat < stretch.figure.beats) return;
  const x = Math.min(left + width, end - 1);
  line.bars += bar(x);
  if (after && after.part !== stretch.part) line.bars += bar(x - 5);
}

function drawTexts(
  line: TabLine,
  stretch: Stretch,
  { before, isNamed }: { before: Stretch | undefined; isNamed: boolean },
  spot: Spot,
  lineTop: number,
): void {
  const { left, top, width, sizes, span, meter } = spot;
  if (sizes.label !== null) {
    const isTagged = isMelody(stretch) && !(before && isMelody(before));
    const tag = isTagged ? say.melody[width < WIDE_TAG ? 'narrow' : 'wide'] : null;
    const said = [isNamed && !isPickup(stretch) ? measureLabel(stretch) : null, tag].filter(
      (one) => one !== null,
    );
    if (said.length > 0) line.labels.push({ x: left + 5, y: lineTop + sizes.label, text: said.join(' · ') });
  }
  for (const { onset, kind, text } of stretch.measure.labels ?? []) {
    if (compare(onset, span.from) < 0 || compare(onset, span.to) >= 0) continue;
    const half = (text.length * sizes.word * 0.56) / 2;
    const x = Math.min(Math.max(columnX(onset, spot), half + 2), line.end - half - 2);
    if (kind === 'chord') line.chords.push({ x, y: lineTop + (sizes.chord ?? 0), text });
    else line.words.push({ x, y: top + (sizes.words ?? 0), text });
  }
  if (sizes.count === null) return;
  const y = top + sizes.count;
  for (const { onset, text, isBeat } of countedSlots(span, meter, slotsPerBeat(meter))) {
    const x = columnX(onset, spot);
    if (isBeat) line.counts.push({ x, y, text });
    else if (sizes.slot >= LETTER_SLOT) line.between.push({ x, y, text });
  }
}

/** A pickup is not played again with the run that it leads into. */
function pickupSlots(row: readonly Stretch[], meter: Meter): number {
  return slotsIn(row.slice(0, 1).filter(isPickup), meter);
}

function drawRepeat(
  line: TabLine,
  { opens, closes }: Repeat,
  { from: start, lineTop, sizes }: { from: number; lineTop: number; sizes: TabSizes },
): void {
  const from = line.strings[0] ?? 0;
  const height = (line.strings[4] ?? 0) - from;
  const thick = Math.max(3, sizes.gap * 0.16);
  const radius = Math.max(1.6, sizes.gap * 0.1);
  const dots = (x: number) =>
    discPath(x, from + height * 0.36, radius) + discPath(x, from + height * 0.6, radius);
  if (opens) {
    line.heavy += boxPath({ x: start, y: from, width: thick, height }) + dots(start + thick + 3 + radius);
  }
  if (closes === 0) return;
  line.heavy += boxPath({ x: line.end - thick, y: from, width: thick, height });
  line.heavy += dots(line.end - thick - 3 - radius);
  if (closes > 2)
    line.labels.push({ x: line.end - 24, y: lineTop + (sizes.label ?? 14), text: `×${closes}` });
}

function beatColumns(row: readonly Stretch[], lineTop: number, sizes: TabSizes, meter: Meter): Box[] {
  const perBeat = slotsPerBeat(meter) * sizes.slot;
  const share = meterShape(meter).division === 2 ? 2 : 3;
  const y = lineTop + sizes.first - 0.75 * sizes.gap;
  const columns: Box[] = [];
  let left = 0;
  for (const { fromBeat, toBeat } of row) {
    for (let beat = fromBeat; beat < toBeat; beat += 1) {
      const x = left + (beat - fromBeat) * perBeat;
      columns.push({ x, y, width: perBeat / share, height: 5.7 * sizes.gap });
    }
    left += (toBeat - fromBeat) * perBeat;
  }
  return columns;
}

function measureBoxes(row: readonly Stretch[], y: number, sizes: TabSizes, meter: Meter): Box[] {
  let x = 0;
  return row.map((stretch) => {
    const width = slotsIn([stretch], meter) * sizes.slot;
    const box = { x, y, width, height: sizes.lineHeight };
    x += width;
    return box;
  });
}
