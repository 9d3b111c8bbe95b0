import type { Meter } from '../rhythm/meter';
import { beatsToWholeNotes } from '../rhythm/meter';
import { add, compare, equal, multiply, rational, subtract, type Rational } from '../rhythm/rational';
import type { Strike } from '../tune/strike';
import type { StringNumber } from '../tune/tuning';
import { withNotes, type MeasureWriting } from './measure-edit';
import { slotLength } from './slots';

/** What the right hand plays around a melody note, in the trade's words. */
export const FILLS = ['note-brush-drone', 'note-drone', 'drop-thumb'] as const;
export type Fill = (typeof FILLS)[number];

type Role = 'note' | 'brush' | 'drone' | 'thumb';
type Steps = readonly (readonly [slot: number, role: Role])[];

/**
 * The down-stroke patterns by the slots of their unit (common practice): four slots are the long-short-short of one
 * beat of 2/4 or two of 4/4, three are one beat of 6/8, six a measure of 3/4.
 */
// prettier-ignore
const STEPS: Record<Fill, Record<3 | 4 | 6, Steps>> = {
  'note-brush-drone': {
    3: [[0, 'note'], [1, 'brush'], [2, 'drone']],
    4: [[0, 'note'], [2, 'brush'], [3, 'drone']],
    6: [[0, 'note'], [2, 'brush'], [3, 'drone'], [4, 'brush'], [5, 'drone']],
  },
  'note-drone': {
    3: [[0, 'note'], [2, 'drone']],
    4: [[0, 'note'], [1, 'drone'], [2, 'note'], [3, 'drone']],
    6: [[0, 'note'], [1, 'drone'], [2, 'note'], [3, 'drone'], [4, 'note'], [5, 'drone']],
  },
  'drop-thumb': {
    3: [[0, 'note'], [1, 'thumb'], [2, 'drone']],
    4: [[0, 'note'], [1, 'thumb'], [2, 'note'], [3, 'drone']],
    6: [[0, 'note'], [1, 'thumb'], [2, 'note'], [3, 'drone'], [4, 'brush'], [5, 'drone']],
  },
};

const UNIT: Record<Meter, 3 | 4 | 6> = { '2/2': 4, '2/4': 4, '4/4': 4, '3/4': 6, '6/8': 3, '9/8': 3 };

/** The units of the pattern in a measure: their starts, in whole notes. The last one of a crooked measure may be cut short. */
export function fillUnits(meter: Meter, beats: number): Rational[] {
  const end = beatsToWholeNotes(meter, beats);
  const starts: Rational[] = [];
  for (let start: Rational = [0, 1]; compare(start, end) < 0; start = add(start, unitLength(meter))) {
    starts.push(start);
  }
  return starts;
}

/** The start of the unit in which a place lies. */
export function unitOf(meter: Meter, beats: number, onset: Rational): Rational {
  return fillUnits(meter, beats).findLast((start) => compare(start, onset) <= 0) ?? [0, 1];
}

/**
 * One unit filled around its melody: strikes of the left-hand notes stay, what an earlier filling put there goes, and
 * the pattern takes the places that are free: those a slot or more from every melody note, so that a triplet is left
 * alone. Without a note on its first place it is built on the open string `string`.
 */
export function fillUnit(
  writing: MeasureWriting,
  meter: Meter,
  start: Rational,
  fill: Fill,
  string: StringNumber,
): MeasureWriting {
  const end = earlier(add(start, unitLength(meter)), beatsToWholeNotes(meter, writing.beats));
  const strikes = writing.strikes ?? [];
  const isInside = ({ onset }: Strike): boolean => compare(onset, start) >= 0 && compare(onset, end) < 0;
  const outside = strikes.filter((strike) => !isInside(strike));
  // copies: within the pattern a note lasts until the next, whatever length it had
  const melody = strikes
    .filter((strike) => isInside(strike) && isMelody(strike))
    .map((strike) => ({ ...strike }));
  const note = melody.find(({ onset }) => equal(onset, start)) ?? openNote(start, string);
  const added: Strike[] = [];
  for (const [slot, role] of STEPS[fill][UNIT[meter]]) {
    const onset = add(start, multiply(slotLength(meter), rational(slot)));
    if (compare(onset, end) >= 0 || melody.some((strike) => isWithinSlot(strike.onset, onset, meter)))
      continue;
    added.push(played(role, onset, note));
  }
  const hadMore = outside.length + melody.length < strikes.length;
  return added.length > 0 || hadMore ? withNotes(writing, meter, [...outside, ...melody, ...added]) : writing;
}

/** Every unit that has a melody note on its first place. Unchanged when there is none. */
export function fillMeasure(writing: MeasureWriting, meter: Meter, fill: Fill): MeasureWriting {
  return fillUnits(meter, writing.beats).reduce((filled, start) => {
    const note = filled.strikes?.find((strike) => isMelody(strike) && equal(strike.onset, start));
    return note ? fillUnit(filled, meter, start, fill, note.string) : filled;
  }, writing);
}

function isMelody({ string, technique }: Strike): boolean {
  return string !== 5 && technique !== 'brush' && technique !== 'drone' && technique !== 'drop-thumb';
}

function openNote(onset: Rational, string: StringNumber): Strike {
  return { onset, duration: [1, 1], string: string === 5 ? 1 : string, fret: 0, technique: 'strike' };
}

function played(role: Role, onset: Rational, note: Strike): Strike {
  const duration: Rational = [1, 1];
  if (role === 'note') return { onset, duration, string: note.string, fret: note.fret, technique: 'strike' };
  if (role === 'brush') return { onset, duration, string: 1, fret: 0, technique: 'brush' };
  if (role === 'drone') return { onset, duration, string: 5, fret: 0, technique: 'drone' };
  // the thumb drops to the string inside the one struck: 1 to 2, 2 to 3, 3 to 4
  const string = Math.min(4, note.string + 1) as StringNumber;
  return { onset, duration, string: string === note.string ? 3 : string, fret: 0, technique: 'drop-thumb' };
}

function isWithinSlot(a: Rational, b: Rational, meter: Meter): boolean {
  const apart = compare(a, b) < 0 ? subtract(b, a) : subtract(a, b);
  return compare(apart, slotLength(meter)) < 0;
}

function unitLength(meter: Meter): Rational {
  return multiply(slotLength(meter), rational(UNIT[meter]));
}

function earlier(a: Rational, b: Rational): Rational {
  return compare(a, b) < 0 ? a : b;
}
