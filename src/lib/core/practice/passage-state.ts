import type { Moment } from '../time/moment';
import type { PracticeDay } from '../time/practice-day';
import type { Passage, PassageKey } from '../tune/passage';
import { comfortableTempo, copyBelief, passTime, playableTempo, settledTempo, type Belief } from './estimate';
import { dayResult, fading, remember, type DayPass, type DayResult, type Memory } from './memory';
import { OUTCOMES, type Outcome, type Pass } from './records';
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

/** The newest practice day as it goes. */
interface Today {
  passes: number;
  clean: number;
  /** From this tempo on, a pass is near the settled tempo that the day began with. */
  near: number;
  /** For the day's result: its first three passes near the settled tempo, and its first three others. */
  first: DayPass[];
  nearSeen: number;
  othersSeen: number;
}

const NONE_YET = { passes: 0, clean: 0, nearSeen: 0, othersSeen: 0 };

/** What the fold keeps of a passage that has been played. Plain data: it can be cloned and posted. */
export interface PassageState {
  key: PassageKey;
  passage: Passage;
  belief: Belief;
  /** As of the day before `day`. */
  memory: Memory | null;
  /** The newest practice day with a pass. */
  day: PracticeDay;
  days: number;
  passes: number;
  lastPlayed: Moment;
  lastCleanTempo: number | null;
  /** The newest passes whose outcome here is known, oldest first, packed (see `packPass`). */
  recent: number[];
  /** Closed days: day, tempo, low, high, passes, clean; flat, because twenty years of objects would not fit. */
  history: number[];
  today: Today;
  /** Of `belief`, made when asked for. */
  estimate: (SettledTempo & { comfortable: number }) | null;
}

export function freshState(
  passage: Passage,
  key: PassageKey,
  belief: Belief,
  day: PracticeDay,
  moment: Moment,
): PassageState {
  return {
    ...{ key, passage, belief, memory: null, day, days: 1, passes: 0, lastPlayed: moment },
    ...{ lastCleanTempo: null, recent: [], history: [], estimate: null },
    today: { ...NONE_YET, near: 0, first: [] },
  };
}

export function copyState(state: PassageState): PassageState {
  return {
    ...state,
    belief: copyBelief(state.belief),
    recent: state.recent.slice(),
    history: state.history.slice(),
    today: { ...state.today, first: state.today.first.slice() },
  };
}

/** Closes the practice day and lets the nights until `day` pass. Nothing happens when `day` is not later. */
export function beginDay(state: PassageState, day: PracticeDay): void {
  if (day <= state.day) return;
  const closed = dayRecord(state);
  state.history.push(closed.day, closed.tempo, closed.low, closed.high, closed.passes, closed.clean);
  state.memory = memoryOf(state);
  const { sink, variance } = fading(state.memory, day);
  passTime(state.belief, sink, variance);
  state.estimate = null;
  state.day = day;
  state.days += 1;
  state.today = { ...NONE_YET, near: NEAR * closed.tempo * Math.exp(-sink), first: [] };
}

/** Counts a pass. `outcome`: what it was in this passage; `null` when it went wrong somewhere, perhaps here. */
export function countPass(state: PassageState, pass: Pass, outcome: Outcome | null, moment: Moment): void {
  state.estimate = null;
  state.passes += 1;
  state.lastPlayed = moment;
  const { today } = state;
  today.passes += 1;
  if (outcome === null) return;
  const tempo = playableTempo(pass.tempo) ?? 0;
  if (outcome === 'clean') {
    today.clean += 1;
    state.lastCleanTempo = tempo;
  }
  const nearSettled = tempo >= today.near;
  const seen = nearSettled ? today.nearSeen++ : today.othersSeen++;
  if (seen < 3) today.first.push({ outcome, fromMemory: pass.fromMemory, nearSettled });
  if (state.recent.push(packPass(tempo, outcome)) > NEWEST) state.recent.shift();
}

/** The memory with the newest day's result in it. */
export function memoryOf(state: PassageState): Memory | null {
  const result: DayResult | null = dayResult(state.today.first);
  return result === null ? state.memory : remember(state.memory, result, state.day);
}

export function estimateOf(state: PassageState): SettledTempo & { comfortable: number } {
  state.estimate ??= { ...settledTempo(state.belief), comfortable: comfortableTempo(state.belief) };
  return state.estimate;
}

/** The standard normal quantile of 0.9: half of an 80 % interval in standard deviations. */
const Z90 = 1.2815515655446004;

/**
 * The estimate on a later day, sunk and widened as `passTime` does to the belief itself, by the moments alone: a
 * plan reads thousands at once.
 */
export function estimateAt(
  state: PassageState,
  memory: Memory | null,
  day: PracticeDay,
): SettledTempo & { comfortable: number } {
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
  return { day: state.day, tempo, low, high, passes: state.today.passes, clean: state.today.clean };
}

/** All days with a pass, oldest first, the newest as it stands. */
export function historyOf(state: PassageState): DayRecord[] {
  const records: DayRecord[] = [];
  const { history } = state;
  for (let at = 0; at < history.length; at += FIELDS) {
    const [day, tempo, low, high, passes, clean] = history.slice(at, at + FIELDS) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    records.push({ day, tempo, low, high, passes, clean });
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
export function recentPasses(state: PassageState): RecentPass[] {
  return state.recent.map((packed) => ({
    tempo: (packed >> 2) / 100,
    outcome: OUTCOMES[packed & 3] ?? 'clean',
  }));
}

export function cleanOfRecent(state: PassageState): number {
  return state.recent.reduce((clean, packed) => clean + Number((packed & 3) === 0), 0);
}
