import { hearingSegments, type Hearing } from '$lib/core/pluck/hearing';
import { referenceSegments } from '$lib/core/pluck/reference-tone';
import type { Segment } from '$lib/core/rhythm/segment';
import type { ReferenceTone } from '$lib/core/tune/retune';
import type { ClickEngine } from './click-engine';

/** A passage to be heard; the player counts the passes. */
export type Played = Omit<Hearing, 'passes' | 'firstPass'>;

/** So much is always queued, so that a page that is busy does not let a loop run dry. */
const AHEAD_SEC = 8;
const AHEAD_MOST = 32;

/** Plays passages and reference tones on an engine that someone else opened and closes. */
export class StringPlayer {
  readonly #engine: Pick<ClickEngine, 'play' | 'replaceAfter' | 'stop' | 'onSegmentStart'>;
  readonly #off: () => void;
  #looped: Played | null = null;
  #current: Segment | null = null;

  constructor(engine: Pick<ClickEngine, 'play' | 'replaceAfter' | 'stop' | 'onSegmentStart'>) {
    this.#engine = engine;
    this.#off = engine.onSegmentStart(({ segment }) => {
      this.#current = segment;
      if (this.#looped) this.#queue(this.#looped);
    });
  }

  /**
   * Plays a passage, after its count-in, and drops whatever was playing: once, or until `stop`. False, and nothing
   * changes, when the passage is no longer in the tune. Throws a RangeError for a tempo that cannot be heard.
   */
  hear(played: Played, times: 'once' | 'looped'): boolean {
    const once = hearingSegments({ ...played, passes: 1 });
    const pass = once.find(({ kind }) => kind === 'pass');
    if (!pass) return false;
    if (times === 'once') this.#start(once, null);
    else this.#start(hearingSegments({ ...played, passes: passesAhead(pass) }), played);
    return true;
  }

  /**
   * Changes a loop from the next pass on: the tune after an edit, melody or drone alone, click or none. (Another tempo wants
   * its own count-in: `hear` anew.) Changes nothing when no loop plays. A passage that an edit took out of the tune ends
   * after the pass that plays.
   */
  change(change: Partial<Pick<Played, 'tune' | 'sounded' | 'pattern' | 'answers'>>): void {
    if (!this.#looped) return;
    this.#looped = { ...this.#looped, ...change };
    this.#queue(this.#looped);
  }

  /** One string to tune by, struck again as it fades, for two minutes or until `stop`. */
  tone(tone: ReferenceTone): void {
    this.#start(referenceSegments(tone), null);
  }

  /** Silent at once, without a pop. */
  stop(): void {
    this.#looped = null;
    this.#current = null;
    this.#engine.stop();
  }

  /** Lets go of the engine, which plays on what it has. */
  release(): void {
    this.#looped = null;
    this.#off();
  }

  #start(segments: readonly Segment[], looped: Played | null): void {
    this.#looped = looped;
    this.#current = null;
    this.#engine.play(segments);
  }

  #queue(played: Played): void {
    if (this.#current) this.#engine.replaceAfter(this.#current.id, following(this.#current, played));
  }
}

/** What a loop goes on with after one of its segments. A pass that has begun keeps its own answer. */
function following(current: Segment, played: Played): Segment[] {
  const number = Number(current.id.split('-').at(-1));
  const isPass = current.kind === 'pass';
  const firstPass = isPass ? number + 1 : 1;
  const next = hearingSegments({ ...played, firstPass, passes: passesAhead(current) });
  const passes = next.filter(({ kind }) => kind === 'pass');
  if (!played.answers || !current.plucks || !isPass) return passes;
  const { plucks: _, ...still } = current;
  return [{ ...still, id: `answer-${number}` }, ...passes];
}

function passesAhead({ measures, tempo }: Segment): number {
  const beats = measures.reduce((sum, measure) => sum + measure, 0);
  return Math.min(AHEAD_MOST, Math.ceil((AHEAD_SEC * tempo) / 60 / beats));
}
