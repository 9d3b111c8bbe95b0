import { meterShape, type Meter } from '../rhythm/meter';
import {
  add,
  compare,
  equal,
  multiply,
  rational,
  subtract,
  toNumber,
  type Rational,
} from '../rhythm/rational';
import { slotsPerBeat } from './slots';

/** A word of a counting line. */
export interface CountWord {
  text: string;
  /** Of its first letter, from 0 at the left bar line. */
  column: number;
}

/** A column of a measure and the place that is counted there, in beats. */
interface CountMark {
  column: number;
  place: Rational;
}

/** Where the places of a measure stand between its bar lines. Places are in beats of the meter. */
export interface CountGrid {
  /** At least two, in order. */
  marks: readonly CountMark[];
  /** The place of the right bar line. */
  end: Rational;
  /** Columns between the bar lines. */
  width: number;
}

/** What one number of a counting line stands for: a beat, half of one (four eighths in 2/4), a third (six in 6/8). */
export type CountUnit = 1 | 2 | 3;

/** Finer than quintuplets inside a slot nobody types. */
const FINEST = 24;

/** How the places after a number are said (common practice): in halves and quarters, and as a triplet. */
const AFTER: Readonly<Record<string, Rational>> = {
  e: [1, 4],
  '&': [1, 2],
  '+': [1, 2],
  and: [1, 2],
  a: [3, 4],
  ah: [3, 4],
  t: [1, 3],
  tri: [1, 3],
  trip: [1, 3],
  la: [1, 3],
  l: [2, 3],
  let: [2, 3],
  li: [2, 3],
};
const COUNT_WORDS = /1?\d|trip|tri|let|la|li|and|ah|[&+eatl]/gi;

/**
 * The words of a counting line (`1 e & a 2 e & a`, `1+2+`) with their places in the text; `null` for any other line. Bar
 * lines and full stops between them are no words.
 */
export function countWordsIn(text: string): { text: string; at: number }[] | null {
  const bare = text.replace(/[|.]/g, ' ');
  if (!/[\d&+]/.test(bare)) return null;
  const words = [...bare.matchAll(COUNT_WORDS)].map((match) => ({
    text: match[0].toLowerCase(),
    at: match.index,
  }));
  const letters = words.reduce((sum, word) => sum + word.text.length, 0);
  const isAll = letters === bare.replace(/\s/g, '').length;
  return isAll && words.length > 1 && words.some((word) => word.text !== '3') ? words : null;
}

/** The words that count a stretch of a measure slot by slot, at least two; `from` and `to` in beats, multiples of one half. */
export function countedPlaces(
  meter: Meter,
  from: Rational,
  to: Rational,
): { text: string; place: Rational }[] {
  const perBeat = slotsPerBeat(meter);
  const inSteps = (steps: number) => {
    const first = Math.floor(toNumber(multiply(from, rational(steps)))) + 1;
    const later: Rational[] = [];
    for (let step = first; compare(rational(step, steps), to) < 0; step += 1)
      later.push(rational(step, steps));
    return [from, ...later];
  };
  const slots = inSteps(perBeat);
  const places = slots.length > 1 ? slots : inSteps(perBeat * 2);
  return places.map((place) => ({ place, text: countWord(meter, place) }));
}

function countWord(meter: Meter, place: Rational): string {
  const counted = meterShape(meter).division === 3 ? multiply(place, rational(3)) : place;
  const number = Math.floor(toNumber(counted));
  const rest = subtract(counted, rational(number));
  const word = (['e', '&', 'a'] as const).find((name) => equal(AFTER[name] ?? [0, 1], rest));
  return word ?? String(number + 1);
}

/**
 * The grid of a measure by the words that count it. `null` when they do not count upwards, are fewer than two, or end
 * where no measure does. Words before the first number belong to the beat before it, without a number to the last one
 * of the meter.
 */
export function countGrid(
  words: readonly CountWord[],
  width: number,
  meter: Meter,
  unit: CountUnit,
): CountGrid | null {
  const { beats, division } = meterShape(meter);
  const number = words.find(({ text }) => isNumber(text));
  let counted = number ? Number(number.text) - 2 : beats * unit - 1;
  const marks: CountMark[] = [];
  for (const { text, column } of words) {
    if (isNumber(text)) counted = Number(text) - 1;
    const thirds = division === 3 && unit === 1 ? THIRDS[text] : undefined;
    const after: Rational = isNumber(text) ? [0, 1] : (thirds ?? AFTER[text] ?? [0, 1]);
    const place = multiply(add(rational(counted), after), rational(1, unit));
    const last = marks.at(-1);
    if (compare(place, [0, 1]) < 0 || (last && compare(place, last.place) <= 0)) return null;
    marks.push({ column, place });
  }
  const [before, last] = [marks.at(-2), marks.at(-1)];
  if (!before || !last || width <= last.column) return null;
  const perColumn = toNumber(subtract(last.place, before.place)) / (last.column - before.column);
  const end = endOf(toNumber(last.place), perColumn * (width - last.column));
  return end === null ? null : { marks, end: rational(Math.round(end * 2), 2), width };
}

const THIRDS: Readonly<Record<string, Rational>> = {
  '&': [1, 3],
  '+': [1, 3],
  and: [1, 3],
  a: [2, 3],
  ah: [2, 3],
};

function isNumber(word: string): boolean {
  return /^\d/.test(word);
}

/** Measures end on a beat, at most on the half of one; the right bar line may stand a little off. */
function endOf(last: number, rest: number): number | null {
  const seen = last + rest;
  const whole = Math.max(Math.round(seen), Math.floor(last) + 1);
  if (Math.abs(seen - whole) <= 0.3) return whole;
  const half = Math.round(seen * 2) / 2;
  if (half > last && Math.abs(seen - half) <= 0.15) return half;
  // the last word may stand for all that is left of its beat
  return seen > last && seen < whole + 0.5 ? whole : null;
}

/** The place, in beats, of a column: the simplest fraction between the two marks around it that lies there. */
export function placeOnGrid(grid: CountGrid, column: number): Rational {
  const { marks, end, width } = grid;
  const after = marks.findIndex((mark) => mark.column > column);
  const index = after === -1 ? marks.length - 1 : after - 1;
  const mark = marks[index];
  if (!mark) return marks[0]?.place ?? [0, 1];
  const next = marks[index + 1] ?? { column: width, place: end };
  const share = simplestShare(column - mark.column, next.column - mark.column);
  return add(mark.place, multiply(share, subtract(next.place, mark.place)));
}

/** The column of a place; the right bar line's for what lies beyond. */
export function columnOnGrid({ marks, end, width }: CountGrid, place: Rational): number {
  const after = marks.findIndex((mark) => compare(mark.place, place) > 0);
  const index = after === -1 ? marks.length - 1 : Math.max(0, after - 1);
  const mark = marks[index];
  if (!mark || compare(place, end) >= 0) return width;
  const next = marks[index + 1] ?? { column: width, place: end };
  const span = toNumber(subtract(next.place, mark.place));
  const share = toNumber(subtract(place, mark.place)) / span;
  return mark.column + Math.round(share * (next.column - mark.column));
}

/** The fraction of smallest denominator that is `offset` columns of `width` when rounded to whole columns. */
function simplestShare(offset: number, width: number): Rational {
  for (let parts = 1; parts <= FINEST; parts += 1) {
    const count = Math.round((offset * parts) / width);
    for (const near of [count, count - 1, count + 1]) {
      if (near >= 0 && near < parts && Math.round((near * width) / parts) === offset)
        return rational(near, parts);
    }
  }
  return rational(Math.min(offset, width - 1), width);
}
