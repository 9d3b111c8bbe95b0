import { passageKey, type Passage } from '../tune/passage';
import type { PassageState } from './passage-state';

/**
 * States in a few long lists, to be kept on disk: a book of twenty years has twenty thousand, and the browser clones
 * lists of numbers many times faster than objects. Estimates are left out; they are made again when asked for.
 */
export interface PackedStates {
  passages: Passage[];
  /** FIELDS numbers a state; NaN stands for `null`. */
  numbers: Float64Array;
  /** The cells of each belief between its first and its last column. */
  cells: Float32Array;
  recent: Int32Array;
  /** The closed days of each. */
  history: Float32Array;
}

const FIELDS = 20;
const CELLS_A_COLUMN = 4;
const COLUMNS = 80;
const NUMBERS_A_DAY = 6;

export function packStates(states: readonly PassageState[]): PackedStates {
  const numbers = new Float64Array(FIELDS * states.length);
  for (const [place, state] of states.entries()) numbers.set(numbersOf(state), FIELDS * place);
  return {
    passages: states.map(({ passage }) => passage),
    numbers,
    cells: joined(
      states.map(({ belief }) =>
        belief.cells.subarray(CELLS_A_COLUMN * belief.from, CELLS_A_COLUMN * belief.to),
      ),
    ),
    recent: Int32Array.from(states.flatMap(({ recent }) => recent)),
    history: joined(states.map(({ history, closed }) => history.subarray(0, NUMBERS_A_DAY * closed))),
  };
}

function numbersOf(state: PassageState): number[] {
  const { belief, memory, lastPlayed } = state;
  return [
    ...[belief.from, belief.to, belief.sum],
    ...[memory?.stability ?? NaN, memory?.difficulty ?? NaN, memory?.day ?? NaN],
    ...[state.day, state.days, state.passes, lastPlayed.at, lastPlayed.offsetMin],
    ...[state.lastCleanTempo ?? NaN, state.recent.length, state.recentAt, state.closed],
    ...[state.todayPasses, state.todayClean, state.near, state.firstNear, state.firstOthers],
  ];
}

function joined(lists: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(lists.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const list of lists) {
    all.set(list, at);
    at += list.length;
  }
  return all;
}

/** Throws a RangeError when the lists do not fit together. */
export function unpackStates({ passages, numbers, cells, recent, history }: PackedStates): PassageState[] {
  let [cellAt, recentFrom, dayAt] = [0, 0, 0];
  const states = passages.map((passage, place): PassageState => {
    const field = (index: number): number => numbers[FIELDS * place + index] ?? NaN;
    const orNull = (index: number): number | null => (Number.isNaN(field(index)) ? null : field(index));
    const [from, to] = [field(0), field(1)];
    const belief = { cells: new Float32Array(CELLS_A_COLUMN * COLUMNS), from, to, sum: field(2) };
    const cellEnd = cellAt + CELLS_A_COLUMN * (to - from);
    belief.cells.set(cells.subarray(cellAt, cellEnd), CELLS_A_COLUMN * from);
    cellAt = cellEnd;
    const [stability, difficulty, memoryDay] = [orNull(3), field(4), field(5)];
    const recentEnd = recentFrom + field(12);
    const newest = Array.from(recent.subarray(recentFrom, recentEnd));
    recentFrom = recentEnd;
    const dayEnd = dayAt + NUMBERS_A_DAY * field(14);
    const closed = history.slice(dayAt, dayEnd);
    dayAt = dayEnd;
    return {
      key: passageKey(passage),
      passage,
      belief,
      memory: stability === null ? null : { stability, difficulty, day: memoryDay },
      memoryNow: null,
      ...{ day: field(6), days: field(7), passes: field(8) },
      lastPlayed: { at: field(9), offsetMin: field(10) },
      ...{ lastCleanTempo: orNull(11), recent: newest, recentAt: field(13) },
      ...{ history: closed, closed: field(14), todayPasses: field(15), todayClean: field(16) },
      ...{ near: field(17), firstNear: field(18), firstOthers: field(19), estimate: null },
    };
  });
  if (cellAt !== cells.length || recentFrom !== recent.length || dayAt !== history.length) {
    throw new RangeError('Kept states do not fit together');
  }
  return states;
}
