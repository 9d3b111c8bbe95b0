import { say } from '../../texts/reading';
import type { Meter } from '../rhythm/meter';
import type { PartDraft } from '../tune/make-tune';
import type { Pickup } from '../tune/tune';
import type { Tuning } from '../tune/tuning';

/** Something in a source that could not be read as it stands, or that the learner should look at. */
export interface ReadingWarning {
  /** From 1. */
  line: number;
  /** From 1, as seen on the screen: a tab character counts as the spaces it stands for. */
  column: number;
  /** A whole sentence that begins with the place. */
  message: string;
}

/**
 * One tune as a reader found it. What the source does not say is `null` (or empty), never a guess, except where a
 * field says so. A reader of files that hold several tunes returns a list of these. No reader throws on any text: a
 * half-readable source gives the readable half, an unreadable one gives no parts, and `warnings` says what was left out.
 */
export interface Reading {
  title: string | null;
  /** As written: `G`, `A modal`. */
  key: string | null;
  meter: Meter | null;
  tuning: Tuning | null;
  capo: number | null;
  /** In frets, where the source says that the short string is not raised as much as the others are by the capo. */
  spike?: number;
  /** Beats of `meter` per minute. */
  tempo: number | null;
  /** Letters of `parts`. Where the source has no repeat signs, a guess: every part twice. */
  form: string;
  /** Shared measures are found (`sameAs`). */
  parts: readonly PartDraft[];
  pickup: Pickup | null;
  warnings: readonly ReadingWarning[];
}

/** A warning whose sentence names its place: `Line 3, column 14: five strings expected, four seen.` */
function warningAt(line: number, column: number, what: string): ReadingWarning {
  return { line, column, message: say.at(line, column, what) };
}

/** A source that was not read at all, with the reason as a sentence. */
export function refusedReading(message: string): Reading {
  return {
    title: null,
    key: null,
    meter: null,
    tuning: null,
    capo: null,
    tempo: null,
    form: '',
    parts: [],
    pickup: null,
    warnings: [{ line: 1, column: 1, message }],
  };
}

const MOST_WARNINGS = 200;

/** Collects what a reader has to say; of a hopeless source the first 200 warnings and one line for the rest. */
export class Warnings {
  #kept: ReadingWarning[] = [];
  #more = 0;

  add(line: number, column: number, what: string): void {
    if (this.#kept.length < MOST_WARNINGS) this.#kept.push(warningAt(line, column, what));
    else this.#more += 1;
  }

  /** In the order of the source. */
  list(): ReadingWarning[] {
    const sorted = this.#kept.toSorted((a, b) => a.line - b.line || a.column - b.column);
    const last = sorted.at(-1);
    if (last && this.#more > 0) {
      sorted.push(warningAt(last.line, last.column, say.more(this.#more)));
    }
    return sorted;
  }
}
