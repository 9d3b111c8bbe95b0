import type { DrillPhase, PlayedPass } from '$lib/core/practice/drill-log';
import type { Turn } from '$lib/core/practice/drill-segments';
import type { TabMissing } from '$lib/core/pluck/tab-missing';
import type { Mark } from '$lib/core/practice/marking';
import type { Meter } from '$lib/core/rhythm/meter';
import type { Writing } from '$lib/core/tune/shared-measures';
import type { Stretch } from '$lib/core/tune/places';

/** What the drill screen reads of a drill under way, and what it says to it. */
export interface DrillView {
  readonly phase: DrillPhase;
  /** Beats heard since the count-in, the pass or the breath began; `null` when nothing sounds. */
  readonly beat: number | null;
  readonly passes: readonly PlayedPass[];
  /** The passes before the ones being marked. */
  readonly earlier: readonly PlayedPass[];
  readonly turn: Turn;
  /** Beats per minute of the pass that is coming or playing, and of the one after it. */
  readonly tempo: number;
  readonly nextTempo: number;
  readonly toward: number;
  /** Why the tempo moved last. */
  readonly moved: string;
  readonly mark: Mark;
  /** Clean ones of a handful as touched so far. */
  readonly clean: number | null;
  readonly isHandful: boolean;
  /** What there is to see and to hear of the passage. */
  readonly writing: Writing | null;
  /** What of the passage cannot be heard for want of tab. */
  readonly missing: TabMissing | null;
  /** The passage as the string plays it to the learner. */
  readonly hearing: {
    readonly isOn: boolean;
    readonly turn: 'count-in' | 'call' | 'answer' | null;
    readonly tempo: number;
    /** Why it could not be played. */
    readonly refusal: string | null;
  };
  readonly cover: {
    readonly isOn: boolean;
    readonly isTabShown: boolean;
    set(isOn: boolean): void;
    peek(isPeeking: boolean): void;
  };
  readonly secondsLeft: number;
  /** Why there is no click, or a weaker one. */
  readonly silence: string | null;
  /** Why the drill could not begin. */
  readonly refusal: string | null;
  /** Why marks are not on disk, and how many wait. */
  readonly writer: {
    readonly trouble: string | null;
    readonly waiting: number;
    retry(): Promise<void>;
    saveToFile(): Promise<void>;
  };
  readonly stretches: readonly Stretch[];
  readonly tune: { title: string; meter: Meter; goalTempo: number };
  markAs(mark: Mark): void;
  changeMark(pass: PlayedPass): void;
  pause(): void;
  goOn(): void;
  toggleHearing(): Promise<void>;
  moveTempo(step: number): void;
}
