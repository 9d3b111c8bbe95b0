import type { PracticeDay } from '../time/practice-day';
import { dueDay, fading, recallAt, remember, type DayResult, type Memory } from './memory';
import { closedDay, closedUpTo, estimateOf, memoryOf, type PassageState } from './passage-state';

/** A passage as its newest practice day up to some day had left it. */
export interface PassagePast {
  /** Settled at the end of that day: see `tempoOn`. */
  settled: number;
  memory: Memory | null;
  /** After this day it is rusty. */
  due: PracticeDay;
  /** Practice days up to then. */
  days: number;
  /** The newest of them. */
  played: PracticeDay;
}

/** The settled tempo on a later day, sunk by what had faded. */
export function tempoOn({ settled, memory }: PassagePast, day: PracticeDay): number {
  return settled * Math.exp(-fading(memory, day).sink);
}

export function recallOn({ memory }: PassagePast, day: PracticeDay): number {
  return recallAt(memory, day);
}

/** So many practice days before the first one asked for make up the memory that it begins with. */
const LEAD = 10;

/**
 * How a passage stood at the end of each of `days` (rising); `null` before its first practice day. From its newest practice day
 * on this is what its standing says. Before that the settled tempo is exact and the rust is near: the fold keeps of a closed day
 * how many passes were clean and not in which order, so the memory of that time is made again from those counts, over LEAD days.
 */
export function passagePast(state: PassageState, days: readonly PracticeDay[]): (PassagePast | null)[] {
  const first = days[0];
  if (first === undefined) return [];
  let number = first < state.day ? Math.max(0, closedUpTo(state, first) - LEAD) : state.closed;
  let next = closedDay(state, number);
  let memory: Memory | null = null;
  let past: PassagePast | null = null;
  return days.map((day) => {
    if (day >= state.day) {
      if (past?.played !== state.day) {
        past = pastOf(estimateOf(state).tempo, memoryOf(state), state.days, state.day);
      }
      return past;
    }
    let newest: typeof next = null;
    for (; next && next.day <= day; next = closedDay(state, number)) {
      memory = remember(memory, likelyResult(next.passes, next.clean), next.day);
      newest = next;
      number += 1;
    }
    if (newest) past = pastOf(newest.tempo, memory, number, newest.day);
    return past;
  });
}

function pastOf(settled: number, memory: Memory | null, days: number, played: PracticeDay): PassagePast {
  return { settled, memory, due: memory === null ? Infinity : dueDay(memory), days, played };
}

/** Nearest to the true fold of made-up learners' logs, of the few rules that were tried [measured]. */
function likelyResult(passes: number, clean: number): DayResult {
  if (2 * clean < passes) return 'lost';
  return clean < passes ? 'shaky' : 'held';
}
