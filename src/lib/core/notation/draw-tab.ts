import { meterShape, type Meter } from '../rhythm/meter';
import { compare, multiply, subtract, toNumber, type Rational } from '../rhythm/rational';
import type { Strike } from '../tune/strike';
import { drawDots, drawRest, drawStems, drawTriplets, type Stemmed } from './draw-rhythm';
import { beamGroups, isSilent, rhythmColumns, type RhythmColumn, type Span } from './rhythm-columns';
import { inSlots } from './slots';
import { arcPath, boxPath, px, type TabInk } from './tab-ink';
import { BAR_CLEARANCE, COLUMN, FINGER_SLOT, fretText, plateWidth, type TabSizes } from './tab-sizes';
import { techniqueLetter } from './technique-letter';

/** Where a stretch stands in a drawing. */
export interface Spot {
  span: Span;
  /** Of the stretch and of the first string. */
  left: number;
  top: number;
  width: number;
  sizes: TabSizes;
  meter: Meter;
}

/** The middle of what stands at an onset: a little left of its slot's middle, where the beat's numeral stands below. */
export function columnX(onset: Rational, { span, left, sizes, meter }: Spot): number {
  return left + (toNumber(inSlots(subtract(onset, span.from), meter)) + COLUMN) * sizes.slot;
}

/** A rest is wider than a number of one figure: clear of the bar line before it. */
export function restX(onset: Rational, spot: Spot): number {
  return Math.max(columnX(onset, spot), spot.left + spot.sizes.gap * 0.75);
}

/** Fret numbers, arrows, arcs and letters, with their rhythm below. */
export function drawTab(ink: TabInk, strikes: readonly Strike[], spot: Spot): void {
  const { span } = spot;
  const shown = strikes.filter(({ onset }) => compare(onset, span.from) >= 0 && compare(onset, span.to) < 0);
  const letters = new Map<number, string[]>();
  for (const [index, strike] of shown.entries()) {
    const text = fretText(strike);
    const least = spot.left + (plateWidth(text, 1) / 2 + BAR_CLEARANCE) * spot.sizes.fret;
    const x = Math.max(columnX(strike.onset, spot), least);
    const before = shown.slice(0, index).findLast(({ string }) => string === strike.string);
    drawStrike(ink, strike, { text, x }, before, spot);
    const mark = [techniqueLetter(strike.technique), strike.weight === 'accent' ? '>' : null];
    const said = mark.filter((one) => one !== null);
    if (said.length > 0) letters.set(x, [...(letters.get(x) ?? []), ...said]);
  }
  for (const [x, said] of letters) {
    ink.marks.push({ x, y: spot.top - spot.sizes.first + (spot.sizes.mark ?? 0), text: said.join(' ') });
  }
  drawRhythm(ink, shown, spot);
}

function drawStrike(
  ink: TabInk,
  strike: Strike,
  { text, x }: { text: string; x: number },
  before: Strike | undefined,
  spot: Spot,
): void {
  const { sizes, top } = spot;
  const { technique, string, fret, finger } = strike;
  const y = top + (sizes.strings[string - 1] ?? 0);
  if (technique === 'tie' || techniqueLetter(technique)?.match(/[HPS]/)) {
    const from = before ? columnX(before.onset, spot) : x - sizes.slot * 0.8;
    const above = y - sizes.fret * 0.45;
    ink.arcs += arcPath(from + 2, x - 2, above, Math.min(sizes.gap * 0.28, (x - from) * 0.2));
  }
  if (technique === 'tie') return;
  if (technique === 'brush') drawBrush(ink, strike, x, spot);
  if (technique === 'brush' && fret === 0) return;
  const width = plateWidth(text, sizes.fret);
  const plate = { x: x - width / 2, y: y - sizes.fret * 0.43, width, height: sizes.fret * 0.86 };
  ink.plates += boxPath(plate);
  ink.notes.push({ x, y: y + sizes.fret / 3, text, plate });
  if (finger && sizes.slot >= FINGER_SLOT) {
    ink.fingers.push({ x: x + width / 2 + 1, y: y + sizes.fret * 0.5, text: String(finger) });
  }
}

/** An arrow from the brush's first string across the next two; a fretted brush shows its fret at the tail. */
function drawBrush(ink: TabInk, { string, fret }: Strike, x: number, { sizes, top }: Spot): void {
  const start = top + (sizes.strings[string - 1] ?? 0);
  const last = top + (sizes.strings[Math.min(3, string + 1)] ?? 0);
  const tail = start + (fret > 0 ? sizes.fret * 0.5 : -sizes.gap * 0.38);
  const head = sizes.gap * 0.24;
  const tip = `m${px(-head)} ${px(-head * 1.3)}l${px(head)} ${px(head * 1.5)} ${px(head)} ${px(-head * 1.5)}`;
  ink.brushes += `M${px(x)} ${px(tail)}V${px(last + sizes.gap * 0.38)}${tip}`;
}

function drawRhythm(ink: TabInk, shown: readonly Strike[], spot: Spot): void {
  const { sizes, top, meter, span } = spot;
  const columns = rhythmColumns(shown, span, meter, 'tab');
  const middle = top + (sizes.strings[2] ?? 0);
  const unit = sizes.gap * 0.55;
  const to = top + sizes.stemEnd;
  if (isSilent(columns)) {
    drawRest(ink, { power: 0, dots: 0, isTriplet: false }, spot.left + spot.width / 2, middle, sizes.gap);
    return;
  }
  const stemmed = (column: RhythmColumn): Stemmed => {
    const length = sizes.stemEnd - sizes.stemTop;
    // half notes have half a stem, whole notes none: tab has no heads to tell them by
    return {
      column,
      x: columnX(column.onset, spot),
      from: column.value.power === 1 ? to - length / 2 : to - length,
      to,
    };
  };
  for (const group of beamGroups(columns, meter)) {
    const [head] = group;
    if (head?.kind === 'rest') {
      drawRest(ink, head.value, restX(head.onset, spot), middle, sizes.gap * 0.8);
      continue;
    }
    const stems = group.map(stemmed);
    drawStems(ink, stems, unit);
    for (const { column, x, from } of stems) {
      drawDots(ink, column.value, x + unit * 0.45, (from + to) / 2, unit * 1.3);
    }
  }
  drawHeldStems(ink, columns, spot);
  drawTriplets(ink, columns, meter, {
    xOf: ({ onset }) => columnX(onset, spot),
    y: top + sizes.triplet,
    size: sizes.word,
  });
}

/** A length that takes two values is tied at its stems. */
function drawHeldStems(ink: TabInk, columns: readonly RhythmColumn[], spot: Spot): void {
  const y = spot.top + spot.sizes.stemTop + 2;
  for (const [index, column] of columns.entries()) {
    const before = columns[index - 1];
    if (column.kind !== 'held' || !before) continue;
    ink.arcs += arcPath(columnX(before.onset, spot) + 2, columnX(column.onset, spot) - 2, y, -4);
  }
}

/** What is counted at each slot of a span: `1 & 2 &`, `1 e & a`, `1 & a` (common practice), with the beats marked. */
export function countedSlots(
  span: Span,
  meter: Meter,
  perBeat: number,
): { onset: Rational; text: string; isBeat: boolean }[] {
  const { beat } = meterShape(meter);
  const said = COUNTS[perBeat] ?? [];
  const counted: { onset: Rational; text: string; isBeat: boolean }[] = [];
  const slot: Rational = [beat[0], beat[1] * perBeat];
  const first = Math.ceil(toNumber(span.from) / toNumber(slot) - 1e-9);
  const end = Math.ceil(toNumber(span.to) / toNumber(slot) - 1e-9);
  for (let index = first; index < end; index += 1) {
    const within = index % perBeat;
    const text = within === 0 ? String(index / perBeat + 1) : (said[within - 1] ?? '');
    counted.push({ onset: multiply(slot, [index, 1]), text, isBeat: within === 0 });
  }
  return counted;
}

const COUNTS: Record<number, readonly string[]> = { 2: ['&'], 3: ['&', 'a'], 4: ['e', '&', 'a'] };
