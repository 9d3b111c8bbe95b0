/** What a learner module keeps to: see CONTRACT.md. */
export type LearnerFactory = (input: { seed: number; tunes: readonly BenchTune[] }) => Learner;

export interface BenchTune {
  id: string;
  /** Beats per minute. */
  goal: number;
  /** Beats a measure. */
  beats: number;
  /** Figure ids of the whole tune in playing order. */
  figures: readonly string[];
}

export interface PassAsked {
  tuneId: string;
  /** In playing order; neighbours share a seam. */
  figures: readonly string[];
  tempo: number;
  /** Epoch milliseconds. */
  at: number;
  fromMemory: boolean;
}

export interface PassHeard {
  outcome: 'clean' | 'stumbled' | 'broke down';
  /** Index in `figures`; `null` when clean or not known. */
  missAt: number | null;
}

export interface Learner {
  play(pass: PassAsked): PassHeard;
  night(at: number): void;
  /** The highest tempo at which the whole tune comes out clean 17 times in 20. */
  ready(tuneId: string, at: number): number;
  /** A copy that shares nothing. Not part of the contract: the oracle needs it and is left out without it. */
  fork?(): Learner;
  /**
   * For each figure and seam of the tune's measures `from` to `from + count`, in playing order: the highest tempo at
   * which it holds as often as `ready` asks of each. Not part of the contract: the oracle sees more with it.
   */
  abilities?(tuneId: string, at: number, from: number, count: number): readonly number[];
}
