import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import { playableTempo, SETTLED_CHANCE } from './estimate';
import type { ClimbKind, Outcome } from './records';

/**
 * A drill's path of tempos. No pattern of tempos has been shown best (Henley 2001), so this is a rule of thumb. Plain
 * data; tempos are whole beats per minute.
 */
export interface ClimbState {
  kind: ClimbKind;
  /** The tempo of the next pass. */
  tempo: number;
  /** The tempo before rounding, so that the small steps of slow tempos do not add up to another staircase. */
  level: number;
  comfortable: number;
  toward: number;
  /** The fastest tempo that the climb moves to by itself. */
  top: number;
  cleanRun: number;
  missRun: number;
  /** Going up with every clean pass until a miss, or until `caution` is reached. */
  ascending: boolean;
  /** The tempo at which two misses ended the last ascent; `null` before. */
  caution: number | null;
}

export interface ClimbStart {
  kind: ClimbKind;
  comfortable: number;
  toward: number;
  goal: number;
}

/** What the drill does after a pass, and the words that it says it in. */
export interface ClimbMove {
  from: number;
  to: number;
  why: string;
}

/** Clean passes in a row that raise a steady climb. */
export const CLEAN_RUN = 3;
/** Above what is heard (Drake & Botte 1993: about 3 %), below what unsettles. */
export const UP_STEP = Math.log(1.04);
/** The first ascent, one step a clean pass. */
export const ASCENT_STEP = Math.log(1.05);
/**
 * Weighted up-down rule (Kaernbach 1991, Perception & Psychophysics 49:227): a staircase comes to rest where
 * `chance of a step up * its size = chance of a step down * its size`. With steps up after CLEAN_RUN clean passes that
 * is `p^3 * up = (1 - p^3) * down`; at p = 17/20 a step down is 1.59 steps up: 6 %.
 */
export const DOWN_STEP = (UP_STEP * SETTLED_CHANCE ** CLEAN_RUN) / (1 - SETTLED_CHANCE ** CLEAN_RUN);

/** A climb at its first pass: at the comfortable tempo. Tempos that are out of order or no tempos are put right. */
export function startClimb({ kind, comfortable, toward, goal }: ClimbStart): ClimbState {
  const start = wholeTempo(comfortable) ?? TEMPO_MIN;
  const aim = Math.max(start, wholeTempo(toward) ?? start);
  const most = Math.min(TEMPO_MAX, Math.max(aim, Math.floor(1.1 * (playableTempo(goal) ?? aim))));
  const top = Math.min(most, aim + Math.max(1, Math.floor(aim * (Math.exp(UP_STEP) - 1))));
  return {
    ...{ kind, tempo: start, level: start, comfortable: start, toward: aim, top },
    ...{ cleanRun: 0, missRun: 0, ascending: true, caution: null },
  };
}

/** The climb after a pass. An unmarked pass (`null`) leaves everything as it is. */
export function nextStep(state: ClimbState, outcome: Outcome | null): { state: ClimbState; move: ClimbMove } {
  const stay = (why: string) => moved(state, state, why);
  if (outcome === null) return stay(`not marked: stay at ${state.tempo}`);
  if (state.kind === 'by hand') return stay(`your tempo: ${state.tempo}`);
  const counted: ClimbState = {
    ...state,
    cleanRun: outcome === 'clean' ? state.cleanRun + 1 : 0,
    missRun: outcome === 'clean' ? 0 : state.missRun + 1,
  };
  if (state.kind === 'alternating') return alternate(state, counted, outcome === 'clean');
  return outcome === 'clean' ? afterClean(state, counted) : afterMiss(state, counted);
}

/** The learner's own tempo: the climb goes on from there. A tempo that is no number changes nothing. */
export function setTempoByHand(state: ClimbState, tempo: number): ClimbState {
  const set = wholeTempo(tempo);
  if (set === null) return state;
  return {
    ...state,
    ...{ tempo: set, level: set, cleanRun: 0, missRun: 0, ascending: false },
    comfortable: Math.min(state.comfortable, set),
  };
}

function afterClean(before: ClimbState, state: ClimbState) {
  const ascending = state.ascending && (state.caution === null || state.tempo < state.caution);
  const needed = ascending ? 1 : CLEAN_RUN;
  if (state.cleanRun < needed) {
    const run = state.cleanRun === 1 ? 'one' : 'two';
    return moved(before, { ...state, ascending }, `${run} clean of three: stay at ${state.tempo}`);
  }
  const run = ascending ? 'clean' : 'three clean';
  const next = { ...stepUp(state, ascending ? ASCENT_STEP : UP_STEP), cleanRun: 0, ascending };
  if (next.tempo === state.tempo) {
    return moved(before, next, `${run}: stay at ${state.tempo}, the top of this drill`);
  }
  return moved(before, next, `${run}: up ${percent(state.tempo, next.tempo)} %`);
}

function afterMiss(before: ClimbState, state: ClimbState) {
  if (state.missRun >= 2 && state.tempo > state.comfortable) {
    const { comfortable, tempo } = state;
    const back = { tempo: comfortable, level: comfortable, missRun: 0, ascending: true, caution: tempo };
    return moved(before, { ...state, ...back }, `two misses: back to ${comfortable}`);
  }
  const next = { ...stepDown(state), ascending: false };
  next.comfortable = Math.min(next.comfortable, next.tempo);
  if (next.tempo === state.tempo) return moved(before, next, `a miss: stay at ${state.tempo}, the slowest`);
  return moved(before, next, `a miss: down ${percent(state.tempo, next.tempo)} %`);
}

/** Comfortable, near the goal, and back; the fast tempo creeps up after a clean pass and down after a miss. */
function alternate(before: ClimbState, state: ClimbState, clean: boolean) {
  const { tempo, comfortable, toward } = state;
  if (tempo === comfortable) {
    if (!clean) {
      const next = stepDown(state);
      next.comfortable = next.tempo;
      return moved(before, next, `a miss: ${next.tempo} before the fast one`);
    }
    const to = Math.min(toward, state.top);
    if (to === comfortable)
      return moved(before, state, `clean: stay at ${comfortable}, the top of this drill`);
    return moved(before, { ...state, tempo: to, level: to }, `clean: now ${to}`);
  }
  const changed = clean ? stepUp(state, UP_STEP).tempo : stepDown(state).tempo;
  const next = {
    ...state,
    ...{ tempo: comfortable, level: comfortable, toward: Math.max(comfortable, changed) },
  };
  return moved(before, next, `${clean ? 'clean' : 'a miss'}: back to ${comfortable}, then ${next.toward}`);
}

function stepUp(state: ClimbState, step: number): ClimbState {
  if (state.tempo >= state.top) return { ...state };
  const level = state.level * Math.exp(step);
  return atLevel(state, Math.min(state.top, Math.max(state.tempo + 1, Math.round(level))), level);
}

function stepDown(state: ClimbState): ClimbState {
  const level = state.level * Math.exp(-DOWN_STEP);
  return atLevel(state, Math.max(TEMPO_MIN, Math.min(state.tempo - 1, Math.round(level))), level);
}

function atLevel(state: ClimbState, tempo: number, level: number): ClimbState {
  return { ...state, tempo, level: Math.round(level) === tempo ? level : tempo };
}

function moved(before: ClimbState, state: ClimbState, why: string): { state: ClimbState; move: ClimbMove } {
  return { state, move: { from: before.tempo, to: state.tempo, why } };
}

function percent(from: number, to: number): number {
  return Math.round(100 * Math.abs(to / from - 1));
}

function wholeTempo(tempo: number): number | null {
  const playable = playableTempo(tempo);
  return playable === null ? null : Math.round(playable);
}

/**
 * The tempos of a ramp after each step of so many percent, not rounded, the last one exactly `to`; downwards when
 * `to` is below `from`. Empty when they are equal. Throws a RangeError unless tempos and percent are positive numbers.
 */
export function rampSteps(from: number, to: number, percentStep: number): number[] {
  if (!(from > 0 && to > 0 && percentStep > 0) || ![from, to, percentStep].every(Number.isFinite)) {
    throw new RangeError(`A ramp needs positive tempos and a step: saw ${from}, ${to}, ${percentStep} %`);
  }
  const steps = Math.ceil(Math.abs(Math.log(to / from)) / Math.log(1 + percentStep / 100) - 1e-9);
  const ratio = (1 + percentStep / 100) ** Math.sign(to - from);
  return Array.from({ length: steps }, (_, index) =>
    index === steps - 1 ? to : from * ratio ** (index + 1),
  );
}
