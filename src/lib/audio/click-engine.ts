import type { SoundCommand, SoundEvent } from '$lib/core/rhythm/sound-render';
import type { Accent } from '$lib/core/rhythm/patterns';
import { checkSegment, type Segment } from '$lib/core/rhythm/segment';
import { heardAtMs, heardFrame } from './output-clock';
import { SegmentTrack, type Position } from './segment-track';
import workletUrl from './worklets/click.worklet.ts?worker&url';

export type { Position, Segment };

/** The click cannot be played here and now; the message is a sentence for the learner. */
export class ClickUnavailable extends Error {
  override readonly name = 'ClickUnavailable';
}

export interface SegmentStart {
  segmentId: string;
  /** As it was sent: after a replacement that came too late, this tells which of the two plays. */
  segment: Segment;
  /** Frame of the audio clock, counted from the opening of the engine. */
  startFrame: number;
  /** When it is heard, in milliseconds of `performance.now()`; most often a little ahead. */
  startsAtMs: number;
}

export interface SegmentEnd {
  segmentId: string;
  endFrame: number;
  endsAtMs: number;
}

export interface ClickStroke {
  segmentId: string;
  /** Where the worklet put it, whatever the page was doing. */
  frame: number;
  heardAtMs: number;
  accent: Accent;
}

interface Listeners {
  segmentStart: (event: SegmentStart) => void;
  segmentEnd: (event: SegmentEnd) => void;
  stroke: (event: ClickStroke) => void;
  finished: () => void;
  interrupted: () => void;
}

/** How long a browser may take to let sound begin after a touch. */
const RESUME_LIMIT_MS = 2000;

/** Lets the fade of a last click reach the device. */
const CLOSING_MS = 30;

/**
 * The click. Everything is rendered in an audio worklet from segments that are sent ahead: what the page does can
 * neither move nor lose a click, and when the page is late, what is queued goes on by itself.
 */
export class ClickEngine {
  readonly #context: AudioContext;
  readonly #node: AudioWorkletNode;
  readonly #track: SegmentTrack;
  readonly #listeners: { [Name in keyof Listeners]: Set<Listeners[Name]> } = {
    segmentStart: new Set(),
    segmentEnd: new Set(),
    stroke: new Set(),
    finished: new Set(),
    interrupted: new Set(),
  };
  #isPlaying = false;
  #isPaused = false;
  /** Commands that make earlier events void, and how many of them the worklet has confirmed. */
  #sent = 0;
  #confirmed = 0;

  private constructor(context: AudioContext) {
    this.#context = context;
    this.#track = new SegmentTrack(context.sampleRate);
    this.#node = new AudioWorkletNode(context, 'click', { numberOfInputs: 0, outputChannelCount: [1] });
    this.#node.port.onmessage = ({ data }: MessageEvent<SoundEvent[]>) => {
      data.forEach((event) => {
        this.#receive(event);
      });
    };
    this.#node.onprocessorerror = () => {
      this.#interrupt();
    };
    this.#node.connect(context.destination);
    context.onstatechange = () => {
      if (context.state !== 'running') this.#interrupt();
    };
  }

  /**
   * Opens the audio device. Call it within a user gesture. Throws ClickUnavailable when the browser has no audio
   * worklet, refuses sound, or cannot load the worklet.
   */
  static async open(): Promise<ClickEngine> {
    if (typeof AudioContext === 'undefined' || typeof AudioWorkletNode === 'undefined') {
      throw new ClickUnavailable('This browser cannot play the click. You can still drill without it.');
    }
    const context = openContext();
    try {
      // before the first await: a browser may count the gesture as spent after it
      await resumeContext(context);
      await loadWorklet(context);
      return new ClickEngine(context);
    } catch (error) {
      await context.close();
      throw error;
    }
  }

  /** Starts now, after a lead of 50 ms, and drops whatever was playing. Throws a RangeError for a segment that cannot be played. */
  play(segments: readonly Segment[]): void {
    segments.forEach(checkSegment);
    this.#reset();
    this.#isPlaying = segments.length > 0;
    this.#send({ type: 'play', segments });
  }

  /**
   * Replaces everything after the named segment that has not started; what follows is back to back with it. When a
   * later segment has already started (the page was late), it plays on, and `segments` follow it, without those up to and
   * including the last one that has started. A segment that waits ends at once, and when all had run dry
   * the segments start at once (each after the lead of 50 ms). An unknown id, or one from before `stop` or `play`, changes
   * nothing. Throws a RangeError for a segment that cannot be played.
   */
  replaceAfter(segmentId: string, segments: readonly Segment[]): void {
    segments.forEach(checkSegment);
    this.#send({ type: 'replace-after', segmentId, segments });
  }

  /** Silent at once, within a fade of 4 ms. No events follow. */
  stop(): void {
    this.#reset();
    this.#isPlaying = false;
    this.#send({ type: 'stop' });
  }

  /** Holds everything where it is; a stroke that sounds is faded out. */
  pause(): void {
    if (!this.#isPlaying || this.#isPaused) return;
    this.#isPaused = true;
    this.#send({ type: 'pause' });
  }

  /** Goes on from where it was held, by `pause` or by an interruption. Call it within a user gesture. */
  resume(): void {
    if (!this.#isPaused) return;
    this.#isPaused = false;
    this.#context.resume().then(
      () => {
        if (!this.#isPaused) this.#send({ type: 'resume' });
      },
      () => {
        this.#interrupt();
      },
    );
  }

  /** From 0 to 1, kept inside that range; NaN is 0. Independent of each segment's own volume. */
  setVolume(volume: number): void {
    this.#send({ type: 'volume', voice: 'click', volume: Math.min(1, Math.max(0, volume || 0)) });
  }

  onSegmentStart(callback: (event: SegmentStart) => void): () => void {
    return listen(this.#listeners.segmentStart, callback);
  }

  onSegmentEnd(callback: (event: SegmentEnd) => void): () => void {
    return listen(this.#listeners.segmentEnd, callback);
  }

  /** The worklet's own record of every stroke that it played. */
  onStroke(callback: (event: ClickStroke) => void): () => void {
    return listen(this.#listeners.stroke, callback);
  }

  /** The queue ran dry: the last segment has been rendered to its end. Not called after `stop`. */
  onFinished(callback: () => void): () => void {
    return listen(this.#listeners.finished, callback);
  }

  /**
   * The system took the sound away while it played (a call, a lock screen, a lost device). The engine is paused:
   * `resume` goes on. When that brings no sound, the worklet itself has failed: close this engine and open another.
   */
  onInterrupted(callback: () => void): () => void {
    return listen(this.#listeners.interrupted, callback);
  }

  /** What is heard at this moment, for the visual beat; `null` when nothing is. */
  now(): Position | null {
    return this.#track.at(heardFrame(this.#context, performance.now()));
  }

  async close(): Promise<void> {
    this.stop();
    this.#context.onstatechange = null;
    await new Promise((resolve) => setTimeout(resolve, CLOSING_MS));
    await this.#context.close();
  }

  #reset(): void {
    this.#track.clear();
    this.#isPaused = false;
    this.#sent += 1;
  }

  #send(command: SoundCommand): void {
    this.#node.port.postMessage(command);
  }

  #interrupt(): void {
    if (!this.#isPlaying || this.#isPaused) return;
    this.pause();
    this.#listeners.interrupted.forEach((callback) => {
      callback();
    });
  }

  #receive(event: SoundEvent): void {
    if (event.type === 'reset') this.#confirmed += 1;
    // told before the worklet heard of the last play or stop
    if (this.#confirmed < this.#sent) return;
    this.#track.follow(event);
    this.#tell(event);
  }

  #tell(event: SoundEvent): void {
    const atMs = heardAtMs(this.#context, event.frame, performance.now());
    switch (event.type) {
      case 'segment-start': {
        const { segment, frame: startFrame } = event;
        this.#isPlaying = true;
        const start = { segmentId: segment.id, segment, startFrame, startsAtMs: atMs };
        for (const callback of this.#listeners.segmentStart) callback(start);
        break;
      }
      case 'segment-end': {
        const end = { segmentId: event.segmentId, endFrame: event.frame, endsAtMs: atMs };
        for (const callback of this.#listeners.segmentEnd) callback(end);
        break;
      }
      case 'click': {
        const { segmentId, frame, accent } = event;
        for (const callback of this.#listeners.stroke)
          callback({ segmentId, frame, heardAtMs: atMs, accent });
        break;
      }
      case 'finished':
        this.#isPlaying = false;
        this.#isPaused = false;
        for (const callback of this.#listeners.finished) callback();
        break;
      case 'segment-change':
      case 'reset':
      case 'paused':
      case 'resumed':
        break;
    }
  }
}

function openContext(): AudioContext {
  try {
    return new AudioContext({ latencyHint: 'balanced' });
  } catch {
    throw new ClickUnavailable(
      'This device has no sound to give at the moment. You can still drill without the click.',
    );
  }
}

async function resumeContext(context: AudioContext): Promise<void> {
  if (!('audioWorklet' in context)) {
    throw new ClickUnavailable('This browser cannot play the click. You can still drill without it.');
  }
  // a browser that wants a touch first leaves the promise open instead of rejecting it
  const limit = new Promise((resolve) => setTimeout(resolve, RESUME_LIMIT_MS));
  await Promise.race([context.resume().catch(() => undefined), limit]);
  if (context.state !== 'running') {
    throw new ClickUnavailable(
      'The browser keeps the sound off. Touch the screen once, then start the click again.',
    );
  }
}

async function loadWorklet(context: AudioContext): Promise<void> {
  try {
    await context.audioWorklet.addModule(workletUrl);
  } catch {
    throw new ClickUnavailable(
      'The click could not be loaded. Open the page again, or drill without the click.',
    );
  }
}

function listen<Callback>(listeners: Set<Callback>, callback: Callback): () => void {
  listeners.add(callback);
  return () => {
    listeners.delete(callback);
  };
}
