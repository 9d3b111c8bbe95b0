import type { Passage, PassageKey, PassageKind } from '../tune/passage';
import type { Id } from '../tune/tune';
import type { Tuning } from '../tune/tuning';
import type { Hands } from '../practice/records';
import type { Moment } from '../time/moment';

/** What the learner says at the check-in. */
export interface PlanRequest {
  now: Moment;
  /** 5 to 120. */
  minutes: number;
  /** As the banjo is tuned now; `null`: any. */
  tuning: Tuning | null;
  hands: Hands;
}

/** Why an item is in the plan. The sentence says it; this lets a screen choose a drawing and a test check a rule. */
export type ReasonKind =
  | 'slowest link'
  | 'new figure'
  | 'open seam'
  | 'slow seam'
  | 'join the part'
  | 'play it through'
  | 'rusty'
  | 'warm-up'
  | 'next layer';

export interface PlanItem {
  passage: Passage;
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
  /** The tempo that the climb heads for in this drill, at most the goal. */
  towardTempo: number;
  minutes: number;
  reasonKind: ReasonKind;
  /** One sentence that a person would say, with figures in it. */
  reason: string;
}

export interface Plan {
  items: PlanItem[];
  /** The sum of the items' minutes and of retunings; at most the minutes asked for. */
  minutes: number;
  /** What was left out and why, one sentence a tune. */
  leftOut: { tuneId: Id; title: string; why: string }[];
}
