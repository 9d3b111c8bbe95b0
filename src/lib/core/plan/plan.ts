import type { Passage, PassageKey, PassageKind } from '../tune/passage';
import type { Id } from '../tune/tune';
import type { Tuning } from '../tune/tuning';
import type { Rust } from '../practice/standing';
import type { Hands } from '../practice/records';
import type { Moment } from '../time/moment';

/** The minutes that a plan can fill. */
export const PLAN_MINUTES_MIN = 5;
export const PLAN_MINUTES_MAX = 120;

/** What the learner says at the check-in. */
export interface PlanRequest {
  now: Moment;
  /** PLAN_MINUTES_MIN to PLAN_MINUTES_MAX. */
  minutes: number;
  /** As the banjo is tuned now; `null`: any. */
  tuning: Tuning | null;
  hands: Hands;
  /** "Not today": passages that stay out. */
  skip?: readonly PassageKey[];
  /** Passages that the learner wants in, in this order of importance; those that cannot be played are passed over. */
  pinned?: readonly PassageKey[];
  /** The learner's own order: passages named here keep it among themselves, within one tuning. */
  order?: readonly PassageKey[];
  /** The learner asks for one more new thing (a tune, or a layer) than a day brings by itself. */
  askNew?: boolean;
  /** Passages drilled today, the newest last: that one does not come back while there is anything else, the others are worth less each time. */
  drilled?: readonly PassageKey[];
  /** Minutes played since the last rest of five minutes or more; 0 or left out: the hands are rested. */
  sinceRest?: number;
}

/** Why an item is in the plan. The sentence says it; this lets a screen choose a drawing and a test check a rule. */
export type ReasonKind =
  | 'slowest link'
  | 'new figure'
  | 'open seam'
  | 'slow seam'
  | 'in its surroundings'
  | 'join the part'
  | 'play it through'
  | 'rusty'
  | 'warm-up'
  | 'next layer'
  | 'your choice';

export interface PlanItem {
  passage: Passage;
  /** No two items of a plan have the same key. */
  key: PassageKey;
  kind: PassageKind;
  tuneId: Id;
  title: string;
  tuning: string;
  /** `Measure 6, part B`. */
  name: string;
  /** Measure labels in playing order: `['A2']`. */
  measures: string[];
  /** Beats of the tune's meter per minute. */
  startTempo: number;
  /** The tune's goal. */
  goalTempo: number;
  /** The tempo that the climb heads for in this drill, at most the goal. */
  towardTempo: number;
  minutes: number;
  /** What the passage is settled at now, beats per minute; `null` when it has not been played. */
  settledTempo: number | null;
  rust: Rust;
  reasonKind: ReasonKind;
  /** One sentence that a person would say, with figures in it. */
  reason: string;
}

/** A rest: after the item with this index (from 0; -1: before all), for so many minutes. */
export interface PlanBreak {
  afterItem: number;
  minutes: number;
}

export interface Plan {
  items: PlanItem[];
  /** The sum of the items' minutes, of retunings and of breaks; at most the minutes asked for. */
  minutes: number;
  /** Empty up to 30 minutes; beyond, one for every stretch of at most 30 minutes (SCIENCE.md section 5). */
  breaks: PlanBreak[];
  /** What tired or sore hands should know; `null` when there is nothing to say. */
  caution: string | null;
  /** What a learner who comes back after weeks should know; `null` when they do not. */
  welcome: string | null;
  /** What became of the wish for one more new thing, in a sentence; `null` when there was none. */
  asked: string | null;
  /** What was left out and why, one sentence a tune. Tunes put away or deleted are not named. */
  leftOut: { tuneId: Id; title: string; why: string }[];
}
