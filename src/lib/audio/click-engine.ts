import type { ClickSound } from '$lib/core/rhythm/click-sound';
import { countSounds } from '$lib/core/rhythm/count-sound';
import { exactSwing, type Accent } from '$lib/core/rhythm/patterns';
import { checkSegment, checkSilentMeasures, type Segment } from '$lib/core/rhythm/segment';
import type { SoundCommand, SoundEvent } from '$lib/core/rhythm/sound-render';
import { exactTempo } from '$lib/core/rhythm/tempo-map';
import type { Change } from '$lib/core/rhythm/timeline';
import { ClickUnavailable, openOutput } from './open-output';
import { heardAtMs, heardFrame } from './output-clock';
import { SegmentTrack, type Position } from './segment-track';
import type { SoundOutput } from './sound-output';

export { ClickUnavailable };
export type { Position, Segment };

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

const NUDGE_MAX_MS = 300;

/**
 * The click, and the string with it. Everything is rendered on the audio thread from segments that are sent ahead: what
 * the page does can neither move nor lose a click, and when the page is late, what is queued goes on by itself. (Where
 * a browser has no audio worklet, the page renders ahead of time; `notice` says so.)
 */
export class ClickEngine {
  readonly #listeners: { [Name in keyof Listeners]: Set<Listeners[Name]> } = {
    segmentStart: new Set(),
    segmentEnd: new Set(),
    stroke: new Set(),
    finished: new Set(),
    interrupted: new Set(),
  };
  #output: SoundOutput;
  #track: SegmentTrack;
  /** The last volumes and sound, for a device that takes over. */
  #levels = new Map<string, SoundCommand>();
  #hasWords = false;
  #nudgeMs = 0;
  #isPlaying = false;
  #isPaused = false;
  #isClosed = false;
  #waking = 0;
  /** Commands that make earlier events void, and how many of them the renderer has confirmed. */
  #sent = 0;
  #confirmed = 0;

  private constructor(output: SoundOutput) {
    this.#output = output;
    this.#track = new SegmentTrack(output.clock.sampleRate);
    this.#listenTo(output);
  }

  /**
   * Opens the audio device. Call it within a user gesture. Throws ClickUnavailable when there is no sound at all, the
   * browser refuses it, or the worklet cannot be loaded.
   */
  static async open(): Promise<ClickEngine> {
    return new ClickEngine(await openOutput());
  }

  /** A sentence for the learner when the click is weaker here than it should be; else `null`. */
  get notice(): string | null {
    return this.#output.notice;
  }

  /**
   * Starts now, after a lead of 50 ms, and drops whatever was playing. Within a user gesture it also wakes a device
   * that the system had silenced, or opens another when that one is gone. Throws a RangeError for a segment that cannot be
   * played, and when there is none.
   */
  play(segments: readonly Segment[]): void {
    if (segments.length === 0) throw new RangeError('There is nothing to play: it has no segments');
    segments.forEach(checkSegment);
    this.#reset();
    this.#isPlaying = true;
    this.#sendWordsFor(segments);
    this.#send({ type: 'play', segments });
    if (!this.#output.isRunning) void this.#revive(segments);
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
    this.#sendWordsFor(segments);
    this.#send({ type: 'replace-after', segmentId, segments });
  }

  /**
   * Changes what plays from the next beat on, and all that was sent ahead; no click is doubled or left out. Throws a
   * RangeError for what cannot be played.
   */
  change(change: Change): void {
    checkChange(change);
    this.#send({ type: 'change', change });
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

  /**
   * Goes on from where it was held, by `pause` or by an interruption. Call it within a user gesture. When the device
   * stays silent, `onInterrupted` is called again; `play` then opens another.
   */
  resume(): void {
    if (!this.#isPaused) return;
    this.#isPaused = false;
    void this.#wake().then((isAwake) => {
      if (!isAwake) this.#interrupt();
      else if (!this.#isPaused) this.#send({ type: 'resume' });
    });
  }

  /** Of the click, from 0 to 1, kept inside that range; NaN is 0. Independent of each segment's own volume. */
  setVolume(volume: number): void {
    this.#setLevel('click', { type: 'volume', voice: 'click', volume: within(volume, 0, 1) });
  }

  /** Of the string, from 0 to 1, kept inside that range; NaN is 0. */
  setStringVolume(volume: number): void {
    this.#setLevel('string', { type: 'volume', voice: 'string', volume: within(volume, 0, 1) });
  }

  /** What the click sounds like, from the next stroke on. */
  setSound(sound: ClickSound): void {
    this.#setLevel('sound', { type: 'click-sound', sound });
  }

  /**
   * Added to the delay that the browser reports between click and ear, as Bluetooth needs: -300 to 300 ms, kept inside
   * that range. It moves what is told and shown, not the click.
   */
  setNudge(latencyMs: number): void {
    this.#nudgeMs = within(latencyMs, -NUDGE_MAX_MS, NUDGE_MAX_MS);
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
   * `resume` goes on, `play` starts anew.
   */
  onInterrupted(callback: () => void): () => void {
    return listen(this.#listeners.interrupted, callback);
  }

  /** What is heard at this moment, for the visual beat; `null` when nothing is. */
  now(): Position | null {
    return this.#track.at(heardFrame(this.#output.clock, performance.now() - this.#nudgeMs));
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    this.stop();
    await this.#output.close();
  }

  #reset(): void {
    this.#track.clear();
    this.#isPaused = false;
    this.#sent += 1;
  }

  #send(command: SoundCommand): void {
    this.#output.send(command);
  }

  #setLevel(name: string, command: SoundCommand): void {
    this.#levels.set(name, command);
    this.#send(command);
  }

  /** The words of the count, made here once, before the first that is spoken. */
  #sendWordsFor(segments: readonly Segment[]): void {
    if (this.#hasWords || !segments.some(({ spoken }) => spoken)) return;
    this.#hasWords = true;
    this.#send({ type: 'count-words', words: countSounds(this.#output.clock.sampleRate) });
  }

  async #wake(): Promise<boolean> {
    this.#waking += 1;
    try {
      return await this.#output.wake();
    } finally {
      this.#waking -= 1;
    }
  }

  /** Wakes the device, or has another take over what was to be played. */
  async #revive(segments: readonly Segment[]): Promise<void> {
    const isCurrent = (
      (sent) => () =>
        sent === this.#sent && !this.#isClosed
    )(this.#sent);
    if (await this.#wake()) return;
    if (!isCurrent()) return;
    const fresh = await openOutput().catch(() => null);
    if (!fresh) this.#interrupt();
    else if (!isCurrent()) await fresh.close();
    else await this.#takeOver(fresh, segments);
  }

  async #takeOver(fresh: SoundOutput, segments: readonly Segment[]): Promise<void> {
    const spent = this.#output;
    spent.listener = null;
    this.#output = fresh;
    this.#track = new SegmentTrack(fresh.clock.sampleRate);
    this.#confirmed = this.#sent - 1;
    this.#listenTo(fresh);
    for (const level of this.#levels.values()) this.#send(level);
    this.#hasWords = false;
    this.#sendWordsFor(segments);
    this.#send({ type: 'play', segments });
    await spent.close();
  }

  #listenTo(output: SoundOutput): void {
    output.listener = {
      onEvents: (events) => {
        for (const event of events) this.#receive(event);
      },
      onLost: () => {
        // news from before it was woken may come late; `wake` itself tells how that ends
        if (this.#waking === 0) this.#interrupt();
      },
    };
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
    const atMs = heardAtMs(this.#output.clock, event.frame, performance.now()) + this.#nudgeMs;
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

function checkChange({ tempo, swing, silentMeasures }: Change): void {
  if (tempo !== undefined) exactTempo(tempo);
  if (swing !== undefined) exactSwing(swing);
  if (silentMeasures) checkSilentMeasures(silentMeasures);
}

/** NaN is 0. */
function within(value: number, min: number, max: number): number {
  return Math.min(max, Math.max(min, value || 0));
}

function listen<Callback>(listeners: Set<Callback>, callback: Callback): () => void {
  listeners.add(callback);
  return () => {
    listeners.delete(callback);
  };
}
