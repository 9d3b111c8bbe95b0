import type { Moment } from '../time/moment';
import type { PracticeDay } from '../time/practice-day';
import type { Passage, PassageKey } from '../tune/passage';

/** Where a passage comes out clean 17 times in 20: the estimate and its 80 % interval, beats per minute. */
export interface SettledTempo {
  tempo: number;
  low: number;
  high: number;
}

/** How likely a passage has faded since it was last played; predicted by the memory model, never counted in days. */
export const RUST = ['fresh', 'beginning to fade', 'likely faded'] as const;
export type Rust = (typeof RUST)[number];

/** Everything that the log says of one passage at one moment; a pure fold, safe to post to another thread. */
export interface Standing {
  key: PassageKey;
  passage: Passage;
  /** `null` until the passage itself has been played. */
  settled: SettledTempo | null;
  /** A comfortable tempo to begin at: a clean pass is about 95 % likely. Given for unplayed passages too, from the prior. */
  comfortable: number;
  rust: Rust;
  /** The memory model's ordinal 0..1; 1 just after playing, 0 when never played. It orders, it promises nothing. */
  recall: number;
  passes: number;
  /** Distinct practice days with a counted pass. */
  days: number;
  /** Clean passes among the newest 20 (or fewer). */
  cleanOfLast20: number;
  /** Counted passes among the newest 20: 20, or all there are. */
  ofLast: number;
  lastPlayed: Moment | null;
  /** The tempo of the newest clean pass. */
  lastCleanTempo: number | null;
  /** Played on at least two practice days with a night between, clean 17 in 20 by estimate at three quarters of goal or more. */
  isSettled: boolean;
}

/** A tune's own tempo: that of its slowest passage among figures and open seams. */
export interface TuneSettled {
  settled: SettledTempo;
  /** Played figures and open seams, the slowest first. */
  slowest: Standing[];
  /** Figures and open seams that have not been played yet; they can only slow the tune. */
  unplayed: number;
}

/** One practice day of a tune: its slowest link at the end of that day, and the passes counted over all links. */
export interface TuneDayRecord extends SettledTempo {
  day: PracticeDay;
  key: PassageKey;
}
