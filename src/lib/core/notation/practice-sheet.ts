import { say } from '../../texts/sheet-words';
import { say as sayTechnique } from '../../texts/techniques';
import type { Meter } from '../rhythm/meter';
import { sharedMarks } from '../tune/board';
import { isPickup, pickupStretch } from '../tune/pickup';
import { partPlaces, type Stretch } from '../tune/places';
import type { Technique, Weight } from '../tune/strike';
import type { Id, Tune } from '../tune/tune';
import { tuningName } from '../tune/tuning';
import { layoutOfRows, mostSlots, rowsOf, type TabLayout } from './tab-layout';
import { leastSlot, sizeNeeds, tabSizes, type SizeNeeds, type TabSizes } from './tab-sizes';

/** All lengths are in CSS pixels of paper: 96 to the inch. */
export interface SheetRoom {
  width: number;
  /** A whole page. */
  page: number;
  /** What the head takes of the first page, and what the room for notes takes at least, of the last. */
  head: number;
  notes: number;
  /** The heading of a part. */
  heading: number;
}

export interface SheetPart {
  name: string;
  /** `Part A, twice`. */
  said: string;
  /** A pickup first, where the tune has one. */
  stretches: Stretch[];
  /** How often it is played in a row, wherever the form has it; 1 where that differs. */
  times: number;
}

/** A part as it is drawn: its lines of the layout, and its measures. */
export interface DrawnPart extends SheetPart {
  /** The first of its lines, and the one after its last. */
  fromLine: number;
  toLine: number;
  /** Of each of its stretches: the joiner's mark of a figure that is met more than once, else `null`. */
  marks: (number | null)[];
}

export interface SheetDrawing {
  parts: DrawnPart[];
  layout: TabLayout;
  /** What a pixel of the layout measures on paper. */
  scale: number;
  pages: number;
}

/**
 * The smallest fret number on paper, in pixels: 6.5 pt, about what small print in a book has (common practice: text
 * under 6 pt is not read with ease). A tune that would need smaller ones takes more pages.
 */
export const LEAST_FRET = 8.7;
/** Numbers of this size are as good as larger ones: 12 pt. */
const GOOD_FRET = 16;
/** Measures on a line, the best first: phrases of this music are of four and eight (common practice). */
const PER_LINE = [4, 8, 2, 1];
/** Each try is so much smaller than the one before. */
const STEP = 1.04;

/** How the banjo is set up and what is played, each in a few words. */
export function setupWords({ tuning, capo, spike, key, meter, form }: Tune): string[] {
  return [
    tuningName(tuning),
    ...(capo > 0 ? [say.capo(capo)] : []),
    ...(spike > 0 ? [say.spike(spike)] : []),
    ...(key === '' ? [] : [say.key(key)]),
    ...[meter, form],
  ];
}

/** The parts of a tune in one layer as a sheet shows them: each once, in board order. */
export function sheetParts(tune: Tune, layerId: Id): SheetPart[] {
  const pickup = pickupStretch(tune);
  return tune.parts
    .filter(({ name }) => tune.form.includes(name))
    .map(({ name }) => {
      const whole = partPlaces(tune, layerId, name).map((place) => ({
        ...place,
        fromBeat: 0,
        toBeat: place.figure.beats,
      }));
      const times = timesInARow(tune.form, name);
      return {
        ...{ name, times, said: say.part(name, times) },
        stretches: pickup?.part === name ? [pickup, ...whole] : whole,
      };
    });
}

function timesInARow(form: string, part: string): number {
  const runs = new Set((form.match(new RegExp(`${part}+`, 'g')) ?? []).map((run) => run.length));
  const [times] = runs;
  return runs.size === 1 && times ? times : 1;
}

/**
 * A whole tune on one page, with the largest numbers that leave room for head and notes; on as many pages as it takes when
 * they would be too small to be read.
 */
export function drawSheet(tune: Tune, layerId: Id, room: SheetRoom): SheetDrawing {
  const parts = sheetParts(tune, layerId);
  const { lines, sizes, scale, pages } = bestLines(parts, tune.meter, room);
  const rows = lines.flatMap((own, index) => rowsOf(own, parts[index]?.times ?? 1));
  const marks = sharedMarks(tune, layerId);
  let line = 0;
  const drawn = parts.map((part, index): DrawnPart => {
    const fromLine = line;
    line += lines[index]?.length ?? 0;
    const own = part.stretches.map(({ figure }) => marks.get(figure.id) ?? null);
    return { ...part, fromLine, toLine: line, marks: own };
  });
  return { parts: drawn, layout: layoutOfRows(rows, tune.meter, sizes), scale, pages };
}

/** Lines of each part. */
type PartLines = Stretch[][][];

/** One way to break the parts into lines. */
interface Way {
  lines: PartLines;
  /** Slots of the longest line. */
  most: number;
  needs: SizeNeeds;
}

interface Sized {
  lines: PartLines;
  sizes: TabSizes;
  scale: number;
  /** Size of the fret numbers on paper. */
  fret: number;
  pages: number;
}

/** On the fewest pages on which the numbers can be read; of those, with the largest numbers. */
function bestLines(parts: readonly SheetPart[], meter: Meter, room: SheetRoom): Sized {
  const needs = sizeNeeds(
    parts.flatMap(({ stretches }) => stretches),
    meter,
  );
  const ways = PER_LINE.map((perLine): Way => {
    const lines = parts.map(({ stretches }) => partLines(stretches, perLine));
    return { lines, most: mostSlots(lines.flat(), meter), needs };
  });
  // a measure of very many beats has small numbers however many pages there are
  const least = Math.min(LEAST_FRET, Math.max(...ways.map((way) => sized(way, 1, room).fret)));
  for (let pages = 1; ; pages += 1) {
    const fitting = ways.flatMap((way) => fitted(way, { pages, least }, room) ?? []);
    const [first, ...others] = fitting;
    if (!first) continue;
    return others.reduce(
      (best, one) => (Math.min(one.fret, GOOD_FRET) > Math.min(best.fret, GOOD_FRET) ? one : best),
      first,
    );
  }
}

/** The largest drawing of these lines on so many pages; `null` when its numbers would be smaller than the least. */
function fitted(way: Way, { pages, least }: { pages: number; least: number }, room: SheetRoom): Sized | null {
  for (let times = 1; ; times *= STEP) {
    const now = sized(way, times, room);
    if (now.fret < least) return null;
    if (now.pages <= pages) return now;
  }
}

function partLines(stretches: readonly Stretch[], perLine: number): Stretch[][] {
  const lead = stretches.filter(isPickup).length;
  const lines: Stretch[][] = [];
  let start = 0;
  // a pickup stands before the first line's measures
  for (let end = lead + perLine; start < stretches.length; end += perLine) {
    lines.push(stretches.slice(start, end));
    start = end;
  }
  return lines;
}

/** Lines laid out `times` as wide as needed and drawn smaller by as much: what is drawn in fixed sizes shrinks too. */
function sized({ lines, most, needs }: Way, times: number, room: SheetRoom): Sized {
  const width = Math.max(room.width, most * leastSlot(needs)) * times;
  const sizes = tabSizes(needs, width / most, true);
  const scale = room.width / width;
  const pages = pagesOf(lines, sizes.lineHeight * scale, room);
  return { lines, sizes, scale, fret: sizes.fret * scale, pages };
}

/** Pages that the lines take when none is cut and no heading stands at a foot. */
function pagesOf(lines: PartLines, lineHeight: number, room: SheetRoom): number {
  let pages = 1;
  let used = room.head;
  for (const own of lines) {
    for (const [index] of own.entries()) {
      const height = lineHeight + (index === 0 ? room.heading : 0);
      if (used + height > room.page) {
        pages += 1;
        used = 0;
      }
      used += height;
    }
  }
  return used + room.notes > room.page ? pages + 1 : pages;
}

/** Signs that need to be told, in the order in which they are explained. */
const SIGNS: readonly ({ sign: string } & ({ technique: Technique } | { weight: Weight }))[] = [
  { sign: 'D', technique: 'drop-thumb' },
  { sign: 'H', technique: 'hammer-on' },
  { sign: 'P', technique: 'pull-off' },
  { sign: 'S', technique: 'slide' },
  { sign: '↓', technique: 'brush' },
  { sign: '>', weight: 'accent' },
  { sign: '( )', weight: 'ghost' },
];

/** What of the signs stands on a sheet: `H` for a hammer-on. */
export function signsOn(parts: readonly SheetPart[]): { sign: string; name: string }[] {
  const strikes = parts.flatMap(({ stretches }) => stretches.flatMap(({ figure }) => figure.strikes ?? []));
  return SIGNS.flatMap((one) => {
    const isOn = strikes.some(({ technique, weight }) =>
      'technique' in one ? technique === one.technique : weight === one.weight,
    );
    if (!isOn) return [];
    const name = 'technique' in one ? sayTechnique.names[one.technique] : sayTechnique.weights[one.weight];
    return [{ sign: one.sign, name }];
  });
}
