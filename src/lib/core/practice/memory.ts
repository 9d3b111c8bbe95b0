import { fsrs, Rating, type Grade } from 'ts-fsrs';
import type { PracticeDay } from '../time/practice-day';
import type { Outcome } from './records';
import type { Rust } from './standing';

/**
 * The memory of one passage. Only this file knows the library behind it. Days are practice days, whole numbers, so
 * the library's difference of UTC calendar dates (two passes in one evening can lie on two of them) never enters.
 * Importing the library adds four methods to `Date.prototype` (scheduler, diff, format, dueFormat); nothing here uses them.
 * Its weights come from vocabulary (SCIENCE.md 1.1): it orders what to refresh first and promises nothing.
 */
export interface Memory {
  /** Days after which the predicted recall is 0.9. */
  stability: number;
  /** 1..10. */
  difficulty: number;
  /** The practice day of the newest result. */
  day: PracticeDay;
}

/** What one practice day said of a passage. */
export const DAY_RESULTS = ['lost', 'shaky', 'held', 'held with ease'] as const;
export type DayResult = (typeof DAY_RESULTS)[number];

/** A passage is offered again after this many days at the latest. The library overshoots a cap given to it, so it is kept here. */
export const LONGEST_GAP_DAYS = 60;
const RETENTION = 0.9;

const GRADES: Record<DayResult, Grade> = {
  lost: Rating.Again,
  shaky: Rating.Hard,
  held: Rating.Good,
  'held with ease': Rating.Easy,
};

const model = fsrs({ request_retention: RETENTION, enable_fuzz: false, enable_short_term: false });

/** The memory after a day's result. A day that is not later than the newest one changes nothing: one result a day. */
export function remember(memory: Memory | null, result: DayResult, day: PracticeDay): Memory {
  const elapsed = memory === null ? 0 : day - memory.day;
  if (memory !== null && !(elapsed > 0)) return memory;
  const { stability, difficulty } = model.next_state(memory, elapsed, GRADES[result]);
  return { stability, difficulty, day };
}

/** The predicted recall on a day, 0..1: 1 on the day itself (and before it), 0 for what was never played. */
export function recallAt(memory: Memory | null, day: PracticeDay): number {
  if (memory === null) return 0;
  const elapsed = day - memory.day;
  return elapsed > 0 ? model.forgetting_curve(elapsed, memory.stability) : 1;
}

/** The day on which the recall is predicted to have come down to 0.9, at most LONGEST_GAP_DAYS away. */
export function dueDay(memory: Memory): PracticeDay {
  return memory.day + Math.min(LONGEST_GAP_DAYS, model.next_interval(memory.stability, 0));
}

/** How likely it has faded. What was never played cannot have. */
export function rustAt(memory: Memory | null, day: PracticeDay): Rust {
  if (memory === null || day <= dueDay(memory)) return 'fresh';
  return recallAt(memory, day) >= 0.8 ? 'beginning to fade' : 'likely faded';
}

export interface DayPass {
  outcome: Outcome;
  fromMemory: boolean;
  /** At or near the settled tempo that the day began with. */
  nearSettled: boolean;
}

/**
 * A day's result from its first passes (three are enough), those at or near the settled tempo before the others;
 * `null` when nothing was played. A pass with the tab in view says less of the memory than one without.
 */
export function dayResult(passes: readonly DayPass[]): DayResult | null {
  const near = passes.filter(({ nearSettled }) => nearSettled);
  const counted = (near.length > 0 ? near : passes).slice(0, 3);
  const first = counted[0];
  if (!first) return null;
  if (first.outcome === 'broke down') return 'lost';
  if (first.outcome === 'stumbled') {
    return counted.slice(1).some(({ outcome }) => outcome === 'clean') ? 'shaky' : 'lost';
  }
  if (near.length === 0 || !first.fromMemory) return 'shaky';
  const allHeld =
    counted.length === 3 && counted.every((pass) => pass.outcome === 'clean' && pass.fromMemory);
  return allHeld ? 'held with ease' : 'held';
}

/**
 * How far an estimate has sunk and widened since it was made, both in log tempo, for `passTime`. Calm nights widen a
 * little and sink next to nothing (motor skill keeps well: Savion-Lemieux & Penhune 2005 saw loss only at 8 weeks);
 * predicted fading does both. The amounts are ours.
 */
export function fading(memory: Memory | null, day: PracticeDay): { sink: number; variance: number } {
  if (memory === null || day <= memory.day) return { sink: 0, variance: 0 };
  const lost = 1 - recallAt(memory, day);
  const days = Math.min(30, day - memory.day);
  return { sink: SINK * lost, variance: FIRST_NIGHT + VARIANCE_A_DAY * days + (SPREAD * lost) ** 2 };
}

const SINK = 0.25;
const VARIANCE_A_DAY = 0.0006;
/** The night after practice moves most (Walker et al. 2002), by how much is not known beforehand. */
const FIRST_NIGHT = 0.005;
const SPREAD = 0.4;
