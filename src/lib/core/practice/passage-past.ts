import type { PracticeDay } from '../time/practice-day';
import { fading, recallAt, remember, rustAt, type DayResult, type Memory } from './memory';
import {
  closedUpTo,
  estimateAt,
  historyOf,
  memoryOf,
  type DayRecord,
  type PassageState,
} from './passage-state';
import type { Rust } from './standing';

/** A passage as it stood at the end of a practice day. */
export interface PassagePast {
  /** Settled, sunk by what had faded since `played`. */
  tempo: number;
  rust: Rust;
  recall: number;
  /** Practice days up to then. */
  days: number;
  /** The newest of them. */
  played: PracticeDay;
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
  const skipped = first < state.day ? Math.max(0, closedUpTo(state, first) - LEAD) : state.closed;
  const records = historyOf(state, skipped).slice(0, -1);
  let next = 0;
  let memory: Memory | null = null;
  let newest: DayRecord | undefined;
  return days.map((day) => {
    if (day >= state.day) return asItStands(state, day);
    for (let record = records[next]; record && record.day <= day; record = records[++next]) {
      memory = remember(memory, likelyResult(record), record.day);
      newest = record;
    }
    return newest ? pastAt(newest.tempo, memory, day, skipped + next, newest.day) : null;
  });
}

function asItStands(state: PassageState, day: PracticeDay): PassagePast {
  const memory = memoryOf(state);
  const { tempo } = estimateAt(state, memory, day);
  const [recall, rust] = [recallAt(memory, day), rustAt(memory, day)];
  return { tempo, rust, recall, days: state.days, played: state.day };
}

function pastAt(
  settled: number,
  memory: Memory | null,
  day: PracticeDay,
  days: number,
  played: PracticeDay,
): PassagePast {
  const tempo = settled * Math.exp(-fading(memory, day).sink);
  return { tempo, rust: rustAt(memory, day), recall: recallAt(memory, day), days, played };
}

/** Nearest to the true fold of made-up learners' logs, of the few rules that were tried [measured]. */
function likelyResult({ passes, clean }: DayRecord): DayResult {
  if (2 * clean < passes) return 'lost';
  return clean < passes ? 'shaky' : 'held';
}
