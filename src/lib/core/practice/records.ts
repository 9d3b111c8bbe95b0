import type { Moment } from '../time/moment';
import type { Id, Origin } from '../tune/tune';
import type { Passage } from '../tune/passage';
import type { Tuning } from '../tune/tuning';

export const OUTCOMES = ['clean', 'stumbled', 'broke down'] as const;
export type Outcome = (typeof OUTCOMES)[number];

export const HANDS = ['fresh', 'stiff', 'tired', 'sore'] as const;
export type Hands = (typeof HANDS)[number];

/** One time through a passage. */
export interface Pass extends Moment {
  kind: 'pass';
  id: Id;
  drillId: Id;
  /** Beats of the tune's meter per minute at which it was played. */
  tempo: number;
  outcome: Outcome;
  /** True when the tab was hidden from the count-in to the end of the pass. */
  fromMemory: boolean;
  /** Index of the measure, from 0 in playing order, where it went wrong; `null` when not known. */
  missAt: number | null;
}

/**
 * A later word on a pass: the log is append-only, so a changed mark is an entry of its own. `unmarked` takes the pass
 * out of the count. Of several corrections of one pass the latest (by `at`, then id) holds.
 */
export interface Correction extends Moment {
  kind: 'correction';
  id: Id;
  drillId: Id;
  passId: Id;
  outcome: Outcome | 'unmarked';
}

export type LogEntry = Pass | Correction;

/** How the tempo moves through a drill. `by hand`: only the learner moves it. */
export const CLIMBS = ['steady', 'alternating', 'by hand'] as const;
export type ClimbKind = (typeof CLIMBS)[number];

/** A run of passes on one passage. */
export interface Drill extends Moment {
  id: Id;
  sittingId: Id;
  passage: Passage;
  climb: ClimbKind;
}

/** One stretch of practice: a check-in, drills, and a note. */
export interface Sitting extends Moment {
  id: Id;
  /** The minutes that the learner had, from the check-in. */
  minutes: number;
  /** As the banjo was tuned. `null`: not asked. */
  tuning: Tuning | null;
  hands: Hands;
  note: string;
  origin: Origin;
}

/**
 * A closed sitting with everything that was played in it, as one record (DESIGN.md section 4: IndexedDB charges by
 * the record). Drills and log are in the order in which they were written.
 */
export interface SealedSitting extends Sitting {
  endedAt: number;
  drills: readonly Drill[];
  log: readonly LogEntry[];
}
