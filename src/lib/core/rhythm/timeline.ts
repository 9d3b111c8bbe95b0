import { exactSample, nearestSample, runBeats } from './click-times';
import { exact, EXACT_ZERO, roundExact, type Exact } from './exact';
import type { SilentMeasures } from './click-times';
import type { Pattern } from './patterns';
import { compare, type Rational } from './rational';
import { segmentBeats, segmentDues, segmentTempo, type Due, type Segment } from './segment';
import { tempoAt, tempoFrom, type TempoMap } from './tempo-map';

export type TimelineEvent =
  | { type: 'segment-start'; segment: Segment; tempo: TempoMap; frame: number }
  /** The running segment goes on otherwise, from `frame`. */
  | { type: 'segment-change'; segment: Segment; tempo: TempoMap; frame: number }
  | { type: 'segment-end'; segmentId: string; frame: number }
  | { type: 'finished'; frame: number };

/** Something to be sounded, with the tempo at its place. */
export interface TimelineCue {
  type: 'cue';
  segment: Segment;
  due: Due;
  frame: number;
  framesPerBeat: number;
}

/**
 * What can be changed while it plays. Pattern, swing and silent measures change in passes only: a count-in and a breath
 * stay what they are. The tempo changes everywhere, and ends a ramp. What is `null` is taken away; what is left out stays.
 */
export interface Change {
  tempo?: number;
  pattern?: Pattern;
  swing?: number;
  silentMeasures?: SilentMeasures | null;
}

interface Running {
  segment: Segment;
  tempo: TempoMap;
  dues: Iterator<Due, void>;
  /** In frames from the timeline's origin, not rounded: the next segment starts from there. `null`: it waits. */
  start: Exact;
  end: Exact | null;
  next: { due: Due; frame: number } | null;
}

/** Ids that are remembered, so that a replacement that comes late finds its place. */
const REMEMBERED = 256;

/**
 * What plays when, in frames of the audio clock. Every place is the exact sum of all that went before, rounded once,
 * so that neither changes of tempo nor the number of segments move a click.
 */
export class Timeline {
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

  /**
   * Changes what plays from the first beat at or after the frame `now` on, and all that is queued; nothing sounds twice
   * or is left out. Nothing may have been taken from `advance` past `now`.
   */
  change(change: Change, now: number): TimelineEvent[] {
    this.#queue = this.#queue.map((segment) => changed(segment, change));
    const running = this.#running;
    if (!running) return [];
    const beat = this.#beatFrom(running, now);
    if (!beat) return [];
    const before = remaining(running, beat);
    running.segment = changed(running.segment, change);
    if (change.tempo !== undefined) {
      running.tempo = tempoFrom(running.tempo, beat, change.tempo);
      running.end = this.#endOf(running);
    }
    running.dues = joined(before, segmentDues(running.segment), beat);
    running.next = this.#nextOf(running);
    const { segment, tempo } = running;
    return [{ type: 'segment-change', segment, tempo, frame: this.#frameOf(running, beat) }];
  }

  /** All that happens before the frame `until`, in order; each thing is told once. */
  advance(until: number): (TimelineEvent | TimelineCue)[] {
    const events: (TimelineEvent | TimelineCue)[] = [];
    for (;;) {
      const running = this.#running;
      if (running?.next) {
        if (running.next.frame >= until) return events;
        events.push(this.#cueOf(running, running.next));
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

  #enterNext(start: Exact, frame: number, events: (TimelineEvent | TimelineCue)[]): void {
    const [segment, ...rest] = this.#queue;
    this.#queue = rest;
    if (!segment) {
      this.#running = null;
      events.push({ type: 'finished', frame });
      return;
    }
    const tempo = segmentTempo(segment);
    const running: Running = { segment, tempo, dues: segmentDues(segment), start, end: null, next: null };
    const isOpen = segment.waits === true && rest.length === 0;
    running.end = isOpen ? null : this.#endOf(running);
    running.next = this.#nextOf(running);
    this.#running = running;
    this.#started = [...this.#started.slice(1 - REMEMBERED), segment.id];
    events.push({ type: 'segment-start', segment, tempo, frame });
  }

  #endOf({ segment, tempo, start }: Running): Exact {
    return exactSample(tempo, runBeats(segment), this.#sampleRate, start);
  }

  #frameOf({ tempo, start }: Running, beat: Rational): number {
    return this.#origin + nearestSample(tempo, beat, this.#sampleRate, start);
  }

  #nextOf(running: Running): Running['next'] {
    const { value: due } = running.dues.next();
    return due ? { due, frame: this.#frameOf(running, due.beat) } : null;
  }

  #cueOf({ segment, tempo }: Running, { due, frame }: { due: Due; frame: number }): TimelineCue {
    const framesPerBeat = (60 * this.#sampleRate) / tempoAt(tempo, due.beat);
    return { type: 'cue', segment, due, frame, framesPerBeat };
  }

  /** The first beat of what runs that lies at or after a frame. */
  #beatFrom(running: Running, frame: number): Rational | null {
    for (const beat of segmentBeats(running.segment)) {
      if (this.#frameOf(running, beat) >= frame) return beat;
    }
    return null;
  }
}

/** What is still due before a beat. */
function remaining({ next, dues }: Running, beat: Rational): Due[] {
  const due: Due[] = [];
  for (let one = next?.due; one && compare(one.beat, beat) < 0; one = dues.next().value ?? undefined) {
    due.push(one);
  }
  return due;
}

/** What comes before a beat of the one, what comes from it on of the other. */
function* joined(
  before: readonly Due[],
  after: Iterable<Due>,
  beat: Rational,
): Generator<Due, void, undefined> {
  yield* before;
  for (const due of after) if (compare(due.beat, beat) >= 0) yield due;
}

function changed(segment: Segment, { tempo, silentMeasures, ...rest }: Change): Segment {
  let result = segment;
  if (tempo !== undefined) {
    const { toTempo: _, ...steady } = result;
    result = { ...steady, tempo };
  }
  if (segment.kind !== 'pass') return result;
  result = { ...result, ...rest };
  if (silentMeasures === undefined) return result;
  const { silentMeasures: _, ...sounding } = result;
  return silentMeasures ? { ...sounding, silentMeasures } : sounding;
}
