import { passageFromKey, type PassageKey } from '../tune/passage';
import { estimateOf, type PassageState } from './passage-state';

/**
 * States in a few long lists, to be kept on disk: a book of twenty years has twenty thousand, and the browser clones
 * lists of numbers many times faster than objects.
 */
export interface PackedStates {
  keys: PassageKey[];
  /** FIELDS numbers a state; NaN stands for `null`. */
  numbers: Float64Array;
  /** The cells of each belief between its first and its last column. */
  cells: Float32Array;
  recent: Int32Array;
  /** The closed days of each. */
  history: Float32Array;
}

const FIELDS = 24;
const CELLS_A_COLUMN = 4;
const CELLS = CELLS_A_COLUMN * 80;
const NUMBERS_A_DAY = 6;

export function packStates(states: readonly PassageState[]): PackedStates {
  const numbers = new Float64Array(FIELDS * states.length);
  for (const [place, state] of states.entries()) numbers.set(numbersOf(state), FIELDS * place);
  return {
    keys: states.map(({ key }) => key),
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
  // kept as well, because a plan asks for every one of them and each costs a sweep over its belief
  const { tempo, low, high, comfortable } = estimateOf(state);
  return [
    ...[belief.from, belief.to, belief.sum],
    ...[memory?.stability ?? NaN, memory?.difficulty ?? NaN, memory?.day ?? NaN],
    ...[state.day, state.days, state.passes, lastPlayed.at, lastPlayed.offsetMin],
    ...[state.lastCleanTempo ?? NaN, state.recent.length, state.recentAt, state.closed],
    ...[state.todayPasses, state.todayClean, state.near, state.firstNear, state.firstOthers],
    ...[tempo, low, high, comfortable],
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

/** Throws a RangeError when the lists do not fit together. Closed days stay where they are: the states look into `history`. */
export function unpackStates({ keys, numbers, cells, recent, history }: PackedStates): PassageState[] {
  let [cellAt, recentFrom, dayAt] = [0, 0, 0];
  // one long list that the beliefs share costs a tenth of one each
  const beliefs = new Float32Array(CELLS * keys.length);
  const states = keys.map((key, place): PassageState => {
    const passage = passageFromKey(key);
    if (!passage) throw new RangeError(`A kept state is of no passage: ${key}`);
    const field = (index: number): number => numbers[FIELDS * place + index] ?? NaN;
    const orNull = (index: number): number | null => (Number.isNaN(field(index)) ? null : field(index));
    const [from, to] = [field(0), field(1)];
    const belief = { cells: beliefs.subarray(CELLS * place, CELLS * (place + 1)), from, to, sum: field(2) };
    const cellEnd = cellAt + CELLS_A_COLUMN * (to - from);
    belief.cells.set(cells.subarray(cellAt, cellEnd), CELLS_A_COLUMN * from);
    cellAt = cellEnd;
    const [stability, difficulty, memoryDay] = [orNull(3), field(4), field(5)];
    const recentEnd = recentFrom + field(12);
    const newest = Array.from(recent.subarray(recentFrom, recentEnd));
    recentFrom = recentEnd;
    const dayEnd = dayAt + NUMBERS_A_DAY * field(14);
    const closed = history.subarray(dayAt, dayEnd);
    dayAt = dayEnd;
    // written out, and in the order of a fresh one: twenty thousand of these are made at a start
    return {
      key,
      passage,
      belief,
      memory: stability === null ? null : { stability, difficulty, day: memoryDay },
      memoryNow: null,
      day: field(6),
      days: field(7),
      passes: field(8),
      lastPlayed: { at: field(9), offsetMin: field(10) },
      lastCleanTempo: orNull(11),
      recent: newest,
      recentAt: field(13),
      history: closed,
      closed: field(14),
      todayPasses: field(15),
      todayClean: field(16),
      near: field(17),
      firstNear: field(18),
      firstOthers: field(19),
      estimate: { tempo: field(20), low: field(21), high: field(22), comfortable: field(23) },
    };
  });
  if (cellAt !== cells.length || recentFrom !== recent.length || dayAt !== history.length) {
    throw new RangeError('Kept states do not fit together');
  }
  return states;
}
