import { say } from '../../texts/climb';
import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import { playableTempo, SETTLED_CHANCE } from './estimate';
import type { ClimbKind, Outcome } from './records';
import type { SettledTempo } from './standing';

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
  /** One step of the first ascent, in log tempo. */
  ascent: number;
  /** Clean passes in a row that raise a steady climb. */
  run: number;
  /** One step down, in log tempo. */
  down: number;
}

export interface ClimbStart {
  kind: ClimbKind;
  comfortable: number;
  toward: number;
  goal: number;
  /** Measures in one pass; a seam counts as one. */
  measures: number;
  /** How far the fastest tempo that is likely lies above the slowest one, in log tempo: a guess is put right in longer steps. */
  doubt: number;
}

/** What the drill does after a pass, and the words that it says it in. */
export interface ClimbMove {
  from: number;
  to: number;
  why: string;
}

/** Above what is heard (Drake & Botte 1993: about 3 %), below what unsettles. */
export const UP_STEP = Math.log(1.04);
/** The first ascent, one step a clean pass, longer where the settled tempo is still a guess. */
const ASCENT_STEP = Math.log(1.05);
const LONGEST_ASCENT_STEP = Math.log(1.12);
const DOUBT_STEPS = 6;

/**
 * A climb's steadiness by the measures of a pass: `run` clean passes in a row raise it, and it comes to rest where a pass is
 * clean with this `chance`. One slip in sixteen measures is not one slip in one: a long pass at 17 in 20 would ask of each of its
 * measures that it hold 99 times in 100, which is slower than anything learns from (the bench of simulated learners chose these).
 */
export const STEADINESS = [
  { measures: 2, run: 3, chance: SETTLED_CHANCE },
  { measures: 4, run: 2, chance: 0.75 },
  { measures: Infinity, run: 1, chance: 0.62 },
];

/**
 * Weighted up-down rule (Kaernbach 1991, Perception & Psychophysics 49:227): a staircase comes to rest where
 * `chance of a step up * its size = chance of a step down * its size`. With steps up after `run` clean passes that
 * is `p^run * up = (1 - p^run) * down`: at p = 17/20 and a run of three a step down is 1.59 steps up, 6 %.
 */
export function downStep(chance: number, run: number): number {
  return (UP_STEP * chance ** run) / (1 - chance ** run);
}

/** A passage's doubt for the start of a climb; what has not been played is a guess. */
export function doubtOf({ settled }: { settled: SettledTempo | null }): number {
  return settled ? Math.log(settled.high / settled.low) : LONGEST_ASCENT_STEP * DOUBT_STEPS;
}

/** A climb at its first pass: at the comfortable tempo. Tempos that are out of order or no tempos are put right. */
export function startClimb({ kind, comfortable, toward, goal, measures, doubt }: ClimbStart): ClimbState {
  const start = wholeTempo(comfortable) ?? TEMPO_MIN;
  const aim = Math.max(start, wholeTempo(toward) ?? start);
  const most = Math.min(TEMPO_MAX, Math.max(aim, Math.floor(1.1 * (playableTempo(goal) ?? aim))));
  const top = Math.min(most, aim + Math.max(1, Math.floor(aim * (Math.exp(UP_STEP) - 1))));
  const { run, chance } = STEADINESS.find((row) => measures <= row.measures) ?? STEADINESS[0]!;
  return {
    ...{ kind, tempo: start, level: start, comfortable: start, toward: aim, top },
    ...{ cleanRun: 0, missRun: 0, ascending: true, caution: null },
    ascent: Math.min(LONGEST_ASCENT_STEP, Math.max(ASCENT_STEP, doubt / DOUBT_STEPS || 0)),
    ...{ run, down: downStep(chance, run) },
  };
}

/** The climb after a pass. An unmarked pass (`null`) leaves everything as it is. */
export function nextStep(state: ClimbState, outcome: Outcome | null): { state: ClimbState; move: ClimbMove } {
  const stay = (why: string) => moved(state, state, why);
  if (outcome === null) return stay(say.notMarked(state.tempo));
  if (state.kind === 'by hand') return stay(say.byHand(state.tempo));
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
  const needed = ascending ? 1 : state.run;
  if (state.cleanRun < needed) {
    return moved(before, { ...state, ascending }, say.cleanSoFar(state.cleanRun, needed, state.tempo));
  }
  const next = { ...stepUp(state, ascending ? state.ascent : UP_STEP), cleanRun: 0, ascending };
  if (next.tempo === state.tempo) return moved(before, next, say.cleanAtTop(needed, state.tempo));
  return moved(before, next, say.cleanUp(needed, percent(state.tempo, next.tempo)));
}

function afterMiss(before: ClimbState, state: ClimbState) {
  if (state.missRun >= 2 && state.tempo > state.comfortable) {
    const { comfortable, tempo } = state;
    const back = { tempo: comfortable, level: comfortable, missRun: 0, ascending: true, caution: tempo };
    return moved(before, { ...state, ...back }, say.missesBack(comfortable));
  }
  const next = { ...stepDown(state), ascending: false };
  next.comfortable = Math.min(next.comfortable, next.tempo);
  if (next.tempo === state.tempo) return moved(before, next, say.missAtSlowest(state.tempo));
  return moved(before, next, say.missDown(percent(state.tempo, next.tempo)));
}

/** Comfortable, near the goal, and back; the fast tempo creeps up after a clean pass and down after a miss. */
function alternate(before: ClimbState, state: ClimbState, clean: boolean) {
  const { tempo, comfortable, toward } = state;
  if (tempo === comfortable) {
    if (!clean) {
      const next = stepDown(state);
      next.comfortable = next.tempo;
      return moved(before, next, say.missBeforeFast(next.tempo));
    }
    const to = Math.min(toward, state.top);
    if (to === comfortable) return moved(before, state, say.cleanAtTop(1, comfortable));
    return moved(before, { ...state, tempo: to, level: to }, say.cleanToFast(to));
  }
  const changed = clean ? stepUp(state, UP_STEP).tempo : stepDown(state).tempo;
  const next = {
    ...state,
    ...{ tempo: comfortable, level: comfortable, toward: Math.max(comfortable, changed) },
  };
  const why = clean ? say.cleanBack(comfortable, next.toward) : say.missBack(comfortable, next.toward);
  return moved(before, next, why);
}

function stepUp(state: ClimbState, step: number): ClimbState {
  if (state.tempo >= state.top) return { ...state };
  const level = state.level * Math.exp(step);
  return atLevel(state, Math.min(state.top, Math.max(state.tempo + 1, Math.round(level))), level);
}

function stepDown(state: ClimbState): ClimbState {
  const level = state.level * Math.exp(-state.down);
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
