import { compare, equal } from '../rhythm/rational';
import type { MelodyNote } from '../tune/melody';
import { columnX, restX, type Spot } from './draw-tab';
import { drawDots, drawRest, drawStems, drawTriplets, type Stemmed } from './draw-rhythm';
import { beamGroups, isSilent, rhythmColumns, type RhythmColumn } from './rhythm-columns';
import { staffPlace, type StaffPlace } from './staff-steps';
import { arcPath, px, type TabInk } from './tab-ink';
import { COLUMN, type TabSizes } from './tab-sizes';

/** Steps of the five lines; the middle one stands at the height of the third string. */
export const STAFF_LINES = [0, 2, 4, 6, 8];
const MIDDLE = 4;
/** Font size of the smallest letter on the G line, in pixels, and the width of one in its own size (measured: serif G). */
const LEAST_CLEF = 13;
const LETTER_WIDTH = 0.78;
/** Length of a stem in spaces (common practice: an octave). */
const STEM = 3.3;

/** The height of a step of the staff. */
export function stepY(step: number, { top, sizes }: Spot): number {
  return top + 2.1 * sizes.gap - ((step - MIDDLE) * sizes.space) / 2;
}

interface Chord {
  column: RhythmColumn;
  x: number;
  places: readonly StaffPlace[];
}

/** Heads, signs, ledger lines, ties and rhythm of a melody that has no fingering. Every sign is written at its note: there is no key signature. */
export function drawStaff(ink: TabInk, melody: readonly MelodyNote[], spot: Spot): void {
  const { span, sizes, meter } = spot;
  const shown = melody.filter(({ onset }) => compare(onset, span.from) >= 0 && compare(onset, span.to) < 0);
  const columns = rhythmColumns(shown, span, meter, 'melody');
  if (isSilent(columns)) {
    const middle = stepY(MIDDLE, spot);
    drawRest(ink, { power: 0, dots: 0, isTriplet: false }, spot.left + spot.width / 2, middle, sizes.space);
    return;
  }
  const chords = chordsOf(columns, shown, spot);
  drawSigns(ink, chords, spot);
  for (const chord of chords.values()) drawHeads(ink, chord, spot);
  for (const group of beamGroups(columns, meter)) drawGroup(ink, group, chords, spot);
  drawTies(ink, columns, shown, chords, spot);
  drawTriplets(ink, columns, meter, {
    xOf: ({ onset }) => columnX(onset, spot),
    y: spot.top + sizes.triplet,
    size: sizes.word,
  });
}

function chordsOf(
  columns: readonly RhythmColumn[],
  melody: readonly MelodyNote[],
  spot: Spot,
): Map<RhythmColumn, Chord> {
  const chords = new Map<RhythmColumn, Chord>();
  let places: readonly StaffPlace[] = [];
  for (const column of columns) {
    if (column.kind === 'rest') continue;
    if (column.kind === 'note') {
      places = melody
        .filter(({ onset }) => equal(onset, column.onset))
        .map(({ pitch }) => staffPlace(pitch + spot.sizes.octave));
    }
    chords.set(column, { column, x: columnX(column.onset, spot), places });
  }
  return chords;
}

/** A sign holds to the end of its measure (common practice), so that each is written once, and taken back by a natural. */
function drawSigns(ink: TabInk, chords: ReadonlyMap<RhythmColumn, Chord>, spot: Spot): void {
  const { space } = spot.sizes;
  const standing = new Map<number, 0 | 1>();
  for (const { x, places } of chords.values()) {
    for (const { step, sign } of places) {
      if ((standing.get(step) ?? 0) === sign) continue;
      standing.set(step, sign);
      const at = x - headRadius(space) - space * 0.55;
      ink.strokes += (sign === 1 ? sharpPath : naturalPath)(at, stepY(step, spot), space);
    }
  }
}

function sharpPath(x: number, y: number, space: number): string {
  const [half, side, tall] = [space * 0.34, space * 0.17, space * 1.25];
  const bar = (offset: number) =>
    `M${px(x - half)} ${px(y + offset + half * 0.4)}l${px(2 * half)} ${px(-half * 0.8)}`;
  return `M${px(x - side)} ${px(y - tall * 0.9)}v${px(tall * 1.9)}M${px(x + side)} ${px(y - tall)}v${px(tall * 1.9)}${bar(-space * 0.36)}${bar(space * 0.36)}`;
}

function naturalPath(x: number, y: number, space: number): string {
  const [side, tall] = [space * 0.22, space * 0.75];
  return (
    `M${px(x - side)} ${px(y - tall * 1.5)}V${px(y + tall * 0.6)}l${px(2 * side)} ${px(-side)}` +
    `M${px(x + side)} ${px(y + tall * 1.5)}V${px(y - tall * 0.6)}l${px(-2 * side)} ${px(side)}`
  );
}

/** The font size of the letter on the G line, which fits between the bar line and the first head where there is room. */
export function clefSize({ slot, space, fret }: TabSizes): number {
  return Math.max(LEAST_CLEF, Math.min(fret * 0.75, (COLUMN * slot - headRadius(space) - 2) / LETTER_WIDTH));
}

function headRadius(space: number): number {
  return space * 0.62;
}

function drawHeads(ink: TabInk, { column, x, places }: Chord, spot: Spot): void {
  const { space } = spot.sizes;
  const radius = headRadius(space);
  for (const { step } of places) {
    const y = stepY(step, spot);
    const isHollow = column.value.power <= 1;
    const head = headPath(x, y, radius, space * 0.44);
    // the hole goes the other way round, so that it stays open
    ink.solid += isHollow ? head + headPath(x, y, radius * 0.7, space * 0.22, 0) : head;
    for (let line = -2; line >= step; line -= 2) ink.strokes += ledger(x, stepY(line, spot), radius);
    for (let line = 10; line <= step; line += 2) ink.strokes += ledger(x, stepY(line, spot), radius);
    drawDots(ink, column.value, x + radius + space * 0.4, step % 2 === 0 ? y - space / 2 : y, space);
  }
}

function ledger(x: number, y: number, radius: number): string {
  return `M${px(x - radius * 1.6)} ${px(y)}h${px(radius * 3.2)}`;
}

/** An oval that leans upwards to the right. */
function headPath(x: number, y: number, wide: number, high: number, sweep: 0 | 1 = 1): string {
  const lean = (-20 * Math.PI) / 180;
  const [dx, dy] = [wide * Math.cos(lean), wide * Math.sin(lean)];
  const turn = (toX: number, toY: number) => `A${px(wide)} ${px(high)} -20 1 ${sweep} ${px(toX)} ${px(toY)}`;
  return `M${px(x - dx)} ${px(y - dy)}${turn(x + dx, y + dy)}${turn(x - dx, y - dy)}z`;
}

function drawGroup(
  ink: TabInk,
  group: readonly RhythmColumn[],
  chords: ReadonlyMap<RhythmColumn, Chord>,
  spot: Spot,
): void {
  const { space } = spot.sizes;
  const [head] = group;
  if (head?.kind === 'rest') {
    drawRest(ink, head.value, restX(head.onset, spot), stepY(MIDDLE, spot), space);
    return;
  }
  const here = group.flatMap((column) => chords.get(column) ?? []);
  const steps = here.flatMap(({ places }) => places.map(({ step }) => step));
  // the note farthest from the middle line decides (common practice)
  const isUp = MIDDLE - Math.min(...steps) > Math.max(...steps) - MIDDLE;
  const away = isUp ? -1 : 1;
  const farthest = stepY(isUp ? Math.max(...steps) : Math.min(...steps), spot) + away * STEM * space;
  const reach = isUp ? Math.min(farthest, stepY(MIDDLE, spot)) : Math.max(farthest, stepY(MIDDLE, spot));
  const to = Math.min(Math.max(reach, spot.top + spot.sizes.staffTop), spot.top + spot.sizes.staffEnd);
  const stems = here.map(({ column, x, places }): Stemmed => {
    const own = places.map(({ step }) => step);
    const from = stepY(isUp ? Math.min(...own) : Math.max(...own), spot);
    return { column, x: x - away * headRadius(space) * 0.9, from, to };
  });
  drawStems(ink, stems, space * 1.1);
}

function drawTies(
  ink: TabInk,
  columns: readonly RhythmColumn[],
  melody: readonly MelodyNote[],
  chords: ReadonlyMap<RhythmColumn, Chord>,
  spot: Spot,
): void {
  const { space, slot } = spot.sizes;
  for (const [index, column] of columns.entries()) {
    const chord = chords.get(column);
    const before = columns[index - 1];
    if (!chord) continue;
    const held =
      column.kind === 'held'
        ? chord.places
        : melody
            .filter(({ onset, tied }) => tied && equal(onset, column.onset))
            .map(({ pitch }) => staffPlace(pitch + spot.sizes.octave));
    const from = before ? columnX(before.onset, spot) : chord.x - slot * 0.8;
    for (const { step } of held) {
      const rise = step < MIDDLE ? -space * 0.3 : space * 0.3;
      ink.arcs += arcPath(from + 2, chord.x - 2, stepY(step, spot) - Math.sign(rise) * space * 0.7, rise);
    }
  }
}
