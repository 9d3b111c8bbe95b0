import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { compare, equal, subtract, toNumber, ZERO } from '../rhythm/rational';
import { isPickup } from '../tune/pickup';
import type { Stretch } from '../tune/places';
import type { Strike } from '../tune/strike';
import { inSlots, slotsPerBeat } from './slots';
import { staffPlace } from './staff-steps';
import { techniqueLetter } from './technique-letter';

export interface TabSizes {
  slot: number;
  fret: number;
  word: number;
  gap: number;
  /** Space between two lines of a staff. */
  space: number;
  /** From the top of a line: baselines of the label, the chords and the marks, and the first string. */
  label: number | null;
  chord: number | null;
  mark: number | null;
  first: number;
  /** From the first string down. */
  strings: readonly number[];
  /** Between these the heads and stems of a staff lie. */
  staffTop: number;
  staffEnd: number;
  stemTop: number;
  stemEnd: number;
  triplet: number;
  count: number | null;
  words: number | null;
  lineHeight: number;
  /** Semitones by which a melody that lies low is written higher than it sounds. */
  octave: 0 | 12;
}

/** A slot as wide as the drill gives it on a 390 px phone; the sizes below are drawn for it. */
const DRILL_SLOT = 390 / 8;
const DRILL_FRET = 30;
const LARGEST_FRET = 52;
export const SMALLEST_TEXT = 13;
/** Narrowest slots: for one or two measures, for more, and for a whole tune at a glance. */
const LEAST_SLOT = { few: 40, many: 22, compact: 14 };
/** Room for letters, for what is counted between the beats, for fingers beside the numbers and for the mark of a staff. */
export const LETTER_SLOT = 16;
export const FINGER_SLOT = 26;
const LABEL_HEIGHT = 20;
/** G3 and E6: the lowest note that is easily read below a staff, the highest above it. */
const READ_LOW = 55;
const READ_HIGH = 88;

export function slotsIn(stretches: readonly Stretch[], meter: Meter): number {
  const beats = stretches.reduce((sum, { fromBeat, toBeat }) => sum + toBeat - fromBeat, 0);
  return beats * slotsPerBeat(meter);
}

/** Several measures carry their names; the two sides of a seam do not. */
export function isLabelled(all: readonly Stretch[]): boolean {
  const stretches = all.filter((stretch) => !isPickup(stretch));
  const isSeam = stretches.some(({ fromBeat, toBeat, figure }) => fromBeat > 0 || toBeat < figure.beats);
  return stretches.length > 1 && !isSeam;
}

/** A measure that is drawn as notes on a staff: it has pitches and no tab. */
export function isMelody({ figure }: Stretch): boolean {
  return figure.strikes === null && figure.melody !== undefined;
}

/**
 * Measures on lines of 1, 2, 4 or 8 whose slots all have the same width: as many as there is room for when fret numbers
 * must not touch.
 */
export function brokenIntoLines(
  stretches: readonly Stretch[],
  meter: Meter,
  width: number,
  compact: boolean,
): Stretch[][] {
  const usual = meterShape(meter).beats * slotsPerBeat(meter);
  const total = slotsIn(stretches, meter);
  const least = compact ? LEAST_SLOT.compact : total <= 2 * usual ? LEAST_SLOT.few : LEAST_SLOT.many;
  const room = width / Math.max(least, leastSlot(sizeNeeds(stretches, meter)));
  if (total <= Math.max(room, usual)) return stretches.length > 0 ? [[...stretches]] : [];
  const perLine = [8, 4, 2].find((count) => count * usual <= room && count <= stretches.length) ?? 1;
  const lines: Stretch[][] = [];
  for (let start = 0; start < stretches.length; start += perLine) {
    lines.push(stretches.slice(start, start + perLine));
  }
  return lines;
}

/** The text of a fret number: a ghost stands in parentheses. */
export function fretText({ fret, weight }: Strike): string {
  return weight === 'ghost' ? `(${fret})` : String(fret);
}

/** Width of the plate behind a fret number. */
export function plateWidth(text: string, size: number): number {
  return size * (0.18 + 0.56 * text.length);
}

/** Where in its slot a number stands, as a share of the slot: a little left of the middle, over the beat's numeral. */
export const COLUMN = 0.45;
/** Between a bar line and the number after it, as a share of the number's size. */
export const BAR_CLEARANCE = 0.13;
/** Where strings lie this near to each other, numbers side by side may touch. */
const NEAR_STRINGS = 1;

/** What numbers have of a slot before they touch a neighbour or the end of their measure, beside two single figures; at most 1. */
function ownRoom(stretches: readonly Stretch[], meter: Meter): number {
  let least = 1;
  for (const figure of new Set(stretches.map((stretch) => stretch.figure))) {
    const strikes = figure.strikes ?? [];
    const end = beatsToWholeNotes(meter, figure.beats);
    for (const [index, strike] of strikes.entries()) {
      const toEnd = toNumber(inSlots(subtract(end, strike.onset), meter)) - COLUMN;
      least = Math.min(least, toEnd / ((plateWidth(fretText(strike), 1) / 2) * 0.93));
      const next = strikes
        .slice(index + 1)
        .find(
          ({ onset, string }) =>
            compare(onset, strike.onset) > 0 && Math.abs(string - strike.string) <= NEAR_STRINGS,
        );
      if (!next) continue;
      const apart = toNumber(inSlots(subtract(next.onset, strike.onset), meter));
      const [wide, nextWide] = [plateWidth(fretText(strike), 1), plateWidth(fretText(next), 1)];
      least = Math.min(least, apart / (((wide + nextWide) / 2) * 0.93));
      if (equal(strike.onset, ZERO)) {
        const fromBar = BAR_CLEARANCE + wide + nextWide / 2;
        least = Math.min(least, (apart + COLUMN) / (fromBar * 0.93));
      }
    }
  }
  return Math.max(least, 0.25);
}

/** What the sizes of a drawing follow from, besides the width of its slots. */
export interface SizeNeeds {
  /** What numbers have of a slot, see `ownRoom`. */
  share: number;
  rows: Readonly<Record<'labels' | 'chords' | 'words' | 'marks' | 'triplets', boolean>>;
  /** The lowest and the highest pitch of its melodies. */
  pitches: { low: number; high: number } | null;
}

export function sizeNeeds(stretches: readonly Stretch[], meter: Meter): SizeNeeds {
  return {
    share: ownRoom(stretches, meter),
    rows: rowsOf(stretches),
    pitches: pitchesOf(stretches),
  };
}

/** The narrowest slot at which the smallest numbers do not touch. */
export function leastSlot({ share }: SizeNeeds): number {
  return SMALLEST_TEXT / (0.9 * share);
}

/** Sizes of a whole drawing whose slots are `slot` wide; rows that nothing stands in take no room. */
export function tabSizes({ share, rows, pitches }: SizeNeeds, slot: number, isCounted: boolean): TabSizes {
  const own = slot * share;
  const grown = DRILL_FRET + Math.max(0, own - DRILL_SLOT) * 0.3;
  const fret = Math.floor(Math.max(SMALLEST_TEXT, Math.min(grown, own * 0.9, LARGEST_FRET)));
  const scale = fret / DRILL_FRET;
  const word = Math.round(Math.max(SMALLEST_TEXT, Math.min(14 * scale, 20)));
  const gap = 24 * scale;
  const space = Math.max(7, 17 * scale);
  const { octave, above, below } = staffRoom(pitches, gap, space);

  let top = 2;
  const row = (isThere: boolean, height: number) => (isThere ? (top += height) : null);
  const label = row(rows.labels, LABEL_HEIGHT - 4);
  const chord = row(rows.chords, word + 6);
  const mark = row(rows.marks, word + 1);
  const first = top + Math.max(fret * 0.5 + (rows.marks ? 7 : 3), above);
  const staffTop = top - first;
  const strings = [0, 1, 2, 3, 4.2].map((at) => at * gap);
  const stemTop = 4.2 * gap + fret * 0.5;
  const stemEnd = stemTop + Math.max(14, 26 * scale);
  const staffEnd = Math.max(stemEnd, 2.1 * gap + below);
  let bottom = staffEnd + (rows.triplets ? word : 0);
  const under = (isThere: boolean) => (isThere ? (bottom += word + 5) : null);
  const count = under(isCounted);
  const words = under(rows.words);
  return {
    ...{ slot, fret, word, gap, space, label, chord, mark, first, strings, stemTop, stemEnd, count, words },
    ...{ staffTop, staffEnd, octave },
    triplet: staffEnd + word - 1,
    lineHeight: Math.ceil(first + bottom + 8),
  };
}

function rowsOf(stretches: readonly Stretch[]): SizeNeeds['rows'] {
  const kinds = new Set(stretches.flatMap(({ measure }) => measure.labels?.map(({ kind }) => kind) ?? []));
  const strikes = stretches.flatMap(({ figure }) => figure.strikes ?? []);
  const marked = strikes.some(
    ({ technique, weight }) => weight === 'accent' || techniqueLetter(technique) !== null,
  );
  const lengths = [
    ...strikes,
    ...stretches.filter(isMelody).flatMap(({ figure: { melody = [] } }) => melody),
  ];
  return {
    labels: isLabelled(stretches) || stretches.some(isMelody),
    chords: kinds.has('chord'),
    words: kinds.has('word'),
    marks: marked,
    triplets: lengths.some(({ duration }) => duration[1] % 3 === 0),
  };
}

function pitchesOf(stretches: readonly Stretch[]): SizeNeeds['pitches'] {
  const pitches = stretches
    .filter(isMelody)
    .flatMap(({ figure: { melody = [] } }) => melody.map(({ pitch }) => pitch));
  return pitches.length === 0 ? null : { low: Math.min(...pitches), high: Math.max(...pitches) };
}

/** How far melody notes reach over the first string and under the middle of the strings, with their stems. */
function staffRoom(pitches: SizeNeeds['pitches'], gap: number, space: number) {
  if (!pitches) return { octave: 0 as const, above: 0, below: 0 };
  const { low, high } = pitches;
  const octave: 0 | 12 = low < READ_LOW && high + 12 <= READ_HIGH ? 12 : 0;
  const [lowStep, highStep] = [staffPlace(low + octave).step, staffPlace(high + octave).step];
  const half = space / 2;
  return {
    octave,
    above: Math.max(highStep - 4 + 3, 4) * half - 2.1 * gap + 4,
    below: Math.max(4 - lowStep + 3, 4) * half,
  };
}
