import { exactSample, runBeats, runStrokes, type RunStroke } from './click-times';
import { exact, EXACT_ZERO, roundExact, type Exact } from './exact';
import type { Accent } from './patterns';
import type { Segment } from './segment';
import { steadyTempo, type TempoMap } from './tempo-map';

export type TimelineEvent =
  | { type: 'segment-start'; segment: Segment; frame: number }
  | { type: 'segment-end'; segmentId: string; frame: number }
  | { type: 'click'; segmentId: string; frame: number; accent: Accent; volume: number }
  | { type: 'finished'; frame: number };

interface Running {
  segment: Segment;
  tempo: TempoMap;
  strokes: Iterator<RunStroke, void>;
  /** In frames from the timeline's origin, not rounded: the next segment starts from there. `null`: it waits. */
  start: Exact;
  end: Exact | null;
  next: { frame: number; accent: Accent } | null;
}

/** Ids that are remembered, so that a replacement that comes late finds its place. */
const REMEMBERED = 256;

/**
 * What plays when, in frames of the audio clock. Every place is the exact sum of all that went before, rounded once,
 * so that neither changes of tempo nor the number of segments move a click.
 */
export class ClickTimeline {
  readonly #sampleRate: number;
  #origin = 0;
  #running: Running | null = null;
  #queue: readonly Segment[] = [];
  /** Ids of all that has started since `start`, in order. */
  #started: string[] = [];

  constructor(sampleRate: number) {
    this.#sampleRate = sampleRate;
  }

  get isPlaying(): boolean {
    return this.#running !== null || this.#queue.length > 0;
  }

  /** Forgets everything and begins with `segments` at `frame`. */
  start(segments: readonly Segment[], frame: number): void {
    this.clear();
    this.#begin(segments, frame);
  }

  clear(): void {
    this.#running = null;
    this.#queue = [];
    this.#started = [];
  }

  /** Moves all that is still to come later by whole frames, as after a pause. */
  postpone(frames: number): void {
    this.#origin += frames;
    if (this.#running?.next) this.#running.next.frame += frames;
  }

  /**
   * Replaces everything after the named segment that has not started. When a later segment has started in the
   * meantime, it plays on and `segments` follow it, without those up to and including the last one that has started. When the
   * named segment waits, or all had ended, they start at once, at `earliest`. An id that is not known changes nothing.
   */
  replaceAfter(segmentId: string, segments: readonly Segment[], earliest: number): void {
    const queued = this.#queue.findIndex((segment) => segment.id === segmentId);
    if (queued >= 0) {
      this.#queue = [...this.#queue.slice(0, queued + 1), ...segments];
      return;
    }
    const place = this.#started.lastIndexOf(segmentId);
    if (place < 0) return;
    const begun = new Set(this.#started.slice(place + 1));
    const rest = segments.slice(segments.findLastIndex((segment) => begun.has(segment.id)) + 1);
    if (!this.#running && this.#queue.length === 0) {
      this.#begin(rest, earliest);
      return;
    }
    this.#queue = rest;
    if (this.#running?.segment.waits) {
      this.#running.end = rest.length > 0 ? exact(earliest - this.#origin) : null;
    }
  }

  /** All that happens before the frame `until`, in order; each thing is told once. */
  advance(until: number): TimelineEvent[] {
    const events: TimelineEvent[] = [];
    for (;;) {
      const running = this.#running;
      if (running?.next) {
        if (running.next.frame >= until) return events;
        const { id, volume = 1 } = running.segment;
        events.push({ type: 'click', segmentId: id, ...running.next, volume });
        running.next = this.#nextOf(running);
        continue;
      }
      const end = running ? running.end : EXACT_ZERO;
      if (end === null || (!running && this.#queue.length === 0)) return events;
      const frame = this.#origin + roundExact(end);
      if (frame >= until) return events;
      if (running) events.push({ type: 'segment-end', segmentId: running.segment.id, frame });
      this.#enterNext(end, frame, events);
    }
  }

  #begin(segments: readonly Segment[], frame: number): void {
    this.#origin = frame;
    this.#queue = segments;
  }

  #enterNext(start: Exact, frame: number, events: TimelineEvent[]): void {
    const [segment, ...rest] = this.#queue;
    this.#queue = rest;
    if (!segment) {
      this.#running = null;
      events.push({ type: 'finished', frame });
      return;
    }
    const tempo = steadyTempo(segment.tempo);
    const isOpen = segment.waits === true && rest.length === 0;
    const end = isOpen ? null : exactSample(tempo, runBeats(segment), this.#sampleRate, start);
    const running: Running = { segment, tempo, strokes: runStrokes(segment), start, end, next: null };
    running.next = this.#nextOf(running);
    this.#running = running;
    this.#started = [...this.#started.slice(1 - REMEMBERED), segment.id];
    events.push({ type: 'segment-start', segment, frame });
  }

  #nextOf({ strokes, tempo, start }: Running): Running['next'] {
    const { value } = strokes.next();
    if (!value) return null;
    const sample = exactSample(tempo, value.beat, this.#sampleRate, start);
    return { frame: this.#origin + roundExact(sample), accent: value.accent };
  }
}
