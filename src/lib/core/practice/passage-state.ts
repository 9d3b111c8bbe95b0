import type { Moment } from '../time/moment';
import type { PracticeDay } from '../time/practice-day';
import type { Passage, PassageKey } from '../tune/passage';
import { comfortableTempo, copyBelief, passTime, settledTempo, type Belief } from './estimate';
import { dayResult, fading, remember, type DayPass, type DayResult, type Memory } from './memory';
import { OUTCOMES, type Outcome } from './records';
import type { SettledTempo } from './standing';

/** A practice day of one passage: the estimate at its end, and what was counted. */
export interface DayRecord extends SettledTempo {
  day: PracticeDay;
  passes: number;
  clean: number;
}

/** Numbers a day in `PassageState.history`. */
const FIELDS = 6;
const NEWEST = 20;
/** From this share of the settled tempo on, a pass is near it. */
const NEAR = 0.8;

/** What the fold keeps of a passage that has been played. Plain data: it can be cloned and posted. */
export interface PassageState {
  key: PassageKey;
  passage: Passage;
  belief: Belief;
  /** As of the day before `day`. */
  memory: Memory | null;
  /** With the newest day's result in it, made when asked for. */
  memoryNow: Memory | null;
  /** The newest practice day with a pass. */
  day: PracticeDay;
  days: number;
  passes: number;
  lastPlayed: Moment;
  lastCleanTempo: number | null;
  /** The newest passes whose outcome here is known, packed (see `packPass`): a ring, the oldest at `recentAt` once it is full. */
  recent: number[];
  recentAt: number;
  /** Closed days, oldest first: day, tempo, low, high, passes, clean; flat, because twenty years of objects would not fit. */
  history: Float32Array;
  /** Days in `history`; what lies behind them is room to grow. */
  closed: number;
  /** The newest practice day as it goes. */
  todayPasses: number;
  todayClean: number;
  /** From this tempo on, a pass is near the settled tempo that the day began with. */
  near: number;
  /** For the day's result: its first three passes near the settled tempo, and its first three others, packed (see `withFirst`). */
  firstNear: number;
  firstOthers: number;
  /** Of `belief`, made when asked for. */
  estimate: Estimate | null;
}

type Estimate = SettledTempo & { comfortable: number };

const NO_DAYS = new Float32Array(0);

export function freshState(
  passage: Passage,
  key: PassageKey,
  belief: Belief,
  day: PracticeDay,
  moment: Moment,
): PassageState {
  return {
    key,
    passage,
    belief,
    memory: null,
    memoryNow: null,
    day,
    days: 1,
    passes: 0,
    lastPlayed: moment,
    lastCleanTempo: null,
    recent: [],
    recentAt: 0,
    history: NO_DAYS,
    closed: 0,
    todayPasses: 0,
    todayClean: 0,
    near: 0,
    firstNear: 0,
    firstOthers: 0,
    estimate: null,
  };
}

/** A copy to go back to. Closed days are only ever added to, so that both may share them. */
export function copyState(state: PassageState): PassageState {
  return { ...state, belief: copyBelief(state.belief), recent: state.recent.slice() };
}

/** A copy that shares nothing and has no room to grow, for a snapshot. */
export function keptState(state: PassageState): PassageState {
  return { ...copyState(state), history: state.history.slice(0, FIELDS * state.closed) };
}

/** Closes the practice day and lets the nights until `day` pass. Nothing happens when `day` is not later. */
export function beginDay(state: PassageState, day: PracticeDay): void {
  if (day <= state.day) return;
  const { tempo, low, high } = state.estimate ?? settledTempo(state.belief);
  closeDay(state, tempo, low, high);
  state.memory = memoryOf(state);
  const { sink, variance } = fading(state.memory, day);
  passTime(state.belief, sink, variance);
  state.estimate = null;
  state.day = day;
  state.days += 1;
  state.todayPasses = 0;
  state.todayClean = 0;
  state.near = NEAR * tempo * Math.exp(-sink);
  state.firstNear = 0;
  state.firstOthers = 0;
}

function closeDay(state: PassageState, tempo: number, low: number, high: number): void {
  const at = FIELDS * state.closed++;
  let { history } = state;
  if (at + FIELDS > history.length) {
    history = new Float32Array(FIELDS * Math.ceil(1.3 * state.closed + 3));
    history.set(state.history.subarray(0, at));
    state.history = history;
  }
  history[at] = state.day;
  history[at + 1] = tempo;
  history[at + 2] = low;
  history[at + 3] = high;
  history[at + 4] = state.todayPasses;
  history[at + 5] = state.todayClean;
}

/** The settled tempo at the end of a closed day, counted from the newest (0); `null` when there were not so many. */
export function closedTempo({ history, closed }: PassageState, daysBack: number): number | null {
  return daysBack < closed ? (history[FIELDS * (closed - 1 - daysBack) + 1] ?? null) : null;
}

/**
 * Counts a pass. `outcome`: what it was in this passage; `null` when it went wrong somewhere, perhaps here. `tempo`: one
 * that the program can play.
 */
export function countPass(
  state: PassageState,
  tempo: number,
  outcome: Outcome | null,
  fromMemory: boolean,
  moment: Moment,
): void {
  state.estimate = null;
  state.passes += 1;
  state.lastPlayed = moment;
  state.todayPasses += 1;
  if (outcome === null) return;
  if (outcome === 'clean') {
    state.todayClean += 1;
    state.lastCleanTempo = tempo;
  }
  state.memoryNow = null;
  if (tempo >= state.near) state.firstNear = withFirst(state.firstNear, outcome, fromMemory);
  else state.firstOthers = withFirst(state.firstOthers, outcome, fromMemory);
  const packed = packPass(tempo, outcome);
  if (state.recent.length < NEWEST) state.recent.push(packed);
  else {
    state.recent[state.recentAt] = packed;
    state.recentAt = (state.recentAt + 1) % NEWEST;
  }
}

/** Digits to the base 7, the first pass lowest, 0 for none: three passes at most, later ones change nothing. */
function withFirst(first: number, outcome: Outcome, fromMemory: boolean): number {
  const digit = 1 + 2 * OUTCOMES.indexOf(outcome) + Number(fromMemory);
  if (first === 0) return digit;
  if (first < 7) return first + 7 * digit;
  return first < 49 ? first + 49 * digit : first;
}

function firstPasses(first: number, nearSettled: boolean): DayPass[] {
  const passes: DayPass[] = [];
  for (let left = first; left > 0; left = Math.floor(left / 7)) {
    const digit = (left % 7) - 1;
    passes.push({ outcome: OUTCOMES[digit >> 1]!, fromMemory: (digit & 1) === 1, nearSettled });
  }
  return passes;
}

/** Results of the few hundred days that there can be, by their packed first passes. */
const results = { near: new Map<number, DayResult | null>(), others: new Map<number, DayResult | null>() };

function resultOf({ firstNear, firstOthers }: PassageState): DayResult | null {
  const isNear = firstNear > 0;
  const first = isNear ? firstNear : firstOthers;
  const known = isNear ? results.near : results.others;
  let result = known.get(first);
  if (result === undefined) known.set(first, (result = dayResult(firstPasses(first, isNear))));
  return result;
}

/** The memory with the newest day's result in it. */
export function memoryOf(state: PassageState): Memory | null {
  if (state.memoryNow === null) {
    const result = resultOf(state);
    state.memoryNow = result === null ? state.memory : remember(state.memory, result, state.day);
  }
  return state.memoryNow;
}

export function estimateOf(state: PassageState): Estimate {
  if (state.estimate === null) {
    const { tempo, low, high } = settledTempo(state.belief);
    state.estimate = { tempo, low, high, comfortable: comfortableTempo(state.belief) };
  }
  return state.estimate;
}

/** The standard normal quantile of 0.9: half of an 80 % interval in standard deviations. */
const Z90 = 1.2815515655446004;

/**
 * The estimate on a later day, sunk and widened as `passTime` does to the belief itself, by the moments alone: a
 * plan reads thousands at once.
 */
export function estimateAt(state: PassageState, memory: Memory | null, day: PracticeDay): Estimate {
  const now = estimateOf(state);
  const { sink, variance } = fading(memory, day);
  if (sink === 0 && variance === 0) return now;
  const below = Math.log(now.tempo / now.low) / Z90;
  const above = Math.log(now.high / now.tempo) / Z90;
  const wider = (deviation: number) => Math.sqrt(deviation ** 2 + variance);
  const tempo = now.tempo * Math.exp(-sink);
  return {
    tempo,
    low: tempo * Math.exp(-Z90 * wider(below)),
    high: tempo * Math.exp(Z90 * wider(above)),
    comfortable: now.comfortable * Math.exp(-sink - (wider(below) - below)),
  };
}

/** The newest day as it stands. */
function dayRecord(state: PassageState): DayRecord {
  const { tempo, low, high } = state.estimate ?? settledTempo(state.belief);
  return { day: state.day, tempo, low, high, passes: state.todayPasses, clean: state.todayClean };
}

/** How many closed days were no later than `day`. */
export function closedUpTo({ history, closed }: PassageState, day: PracticeDay): number {
  let [from, to] = [0, closed];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (history[FIELDS * middle]! <= day) from = middle + 1;
    else to = middle;
  }
  return from;
}

/** A closed day by its number, the oldest 0; `null` when there were not so many. */
export function closedDay(
  { history, closed }: PassageState,
  number: number,
): Omit<DayRecord, 'low' | 'high'> | null {
  if (number >= closed) return null;
  const at = FIELDS * number;
  // written out: a look back over a year's months reads hundreds of thousands of these
  return { day: history[at]!, tempo: history[at + 1]!, passes: history[at + 4]!, clean: history[at + 5]! };
}

/** All days with a pass, oldest first, the newest as it stands. */
export function historyOf(state: PassageState): DayRecord[] {
  const records: DayRecord[] = [];
  const { history } = state;
  for (let at = 0; at < FIELDS * state.closed; at += FIELDS) {
    records.push({
      ...{ day: history[at]!, tempo: history[at + 1]!, low: history[at + 2]!, high: history[at + 3]! },
      ...{ passes: history[at + 4]!, clean: history[at + 5]! },
    });
  }
  records.push(dayRecord(state));
  return records;
}

export interface RecentPass {
  tempo: number;
  outcome: Outcome;
}

function packPass(tempo: number, outcome: Outcome): number {
  return (Math.round(tempo * 100) << 2) | OUTCOMES.indexOf(outcome);
}

/** The newest passes whose outcome here is known, oldest first; tempos to a hundredth. */
export function recentPasses({ recent, recentAt }: PassageState): RecentPass[] {
  return [...recent.slice(recentAt), ...recent.slice(0, recentAt)].map((packed) => ({
    tempo: (packed >> 2) / 100,
    outcome: OUTCOMES[packed & 3] ?? 'clean',
  }));
}

export function cleanOfRecent(state: PassageState): number {
  return state.recent.reduce((clean, packed) => clean + Number((packed & 3) === 0), 0);
}
