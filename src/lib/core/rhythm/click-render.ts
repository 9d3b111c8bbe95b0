import { clickSounds } from './click-sound';
import { ClickTimeline, type TimelineEvent } from './click-timeline';
import { exactSample, runBeats } from './click-times';
import { EXACT_ZERO, roundExact } from './exact';
import type { Accent } from './patterns';
import { checkSegment, type Segment } from './segment';
import { steadyTempo } from './tempo-map';

export type ClickCommand =
  | { type: 'play'; segments: readonly Segment[] }
  | { type: 'replace-after'; segmentId: string; segments: readonly Segment[] }
  | { type: 'stop' }
  | { type: 'pause' }
  | { type: 'resume' }
  | { type: 'volume'; volume: number };

export type ClickEvent =
  | TimelineEvent
  /** `play` or `stop` took hold: whatever was told before belongs to what is gone. */
  | { type: 'reset'; frame: number }
  | { type: 'paused'; frame: number }
  /** Everything that is still to come was put off by `shift` frames. */
  | { type: 'resumed'; frame: number; shift: number };

/** From a command to the first sample it can bring: time enough to tell the page before anything is heard. */
export const LEAD_SEC = 0.05;

/** Long enough not to pop, short enough to be "at once". */
export const FADE_SEC = 0.004;

interface Voice {
  sound: Float32Array;
  /** Next sample of the sound to play; negative: as many frames until it starts. */
  position: number;
  gain: number;
  /** How much `gain` falls with each frame: 0 unless the voice is being silenced. */
  fall: number;
}

/**
 * The click as samples, block by block. It holds no clock: the caller says which frame it is at, and all blocks follow
 * each other. Runs in an audio worklet, in Node and in a page alike.
 */
export class ClickRenderer {
  readonly #sampleRate: number;
  readonly #timeline: ClickTimeline;
  readonly #sounds: Record<Accent, Float32Array>;
  #inbox: ClickCommand[] = [];
  #voices: Voice[] = [];
  #pausedAt: number | null = null;
  #level = 1;
  #targetLevel = 1;

  constructor(sampleRate: number) {
    this.#sampleRate = sampleRate;
    this.#timeline = new ClickTimeline(sampleRate);
    this.#sounds = clickSounds(sampleRate);
  }

  /** Takes a command; it holds from the start of the next block. Segments must have passed `checkSegment`. */
  take(command: ClickCommand): void {
    this.#inbox.push(command);
  }

  /** Overwrites `output` with the block that starts at `frame`, and tells what begins or ends within it. */
  render(output: Float32Array, frame: number): ClickEvent[] {
    const events: ClickEvent[] = [];
    for (const command of this.#inbox) this.#obey(command, frame, events);
    this.#inbox = [];
    if (this.#pausedAt === null) {
      for (const event of this.#timeline.advance(frame + output.length)) {
        events.push(event);
        if (event.type === 'click') this.#strike(event.accent, event.volume, event.frame - frame);
      }
    }
    this.#mix(output);
    return events;
  }

  #obey(command: ClickCommand, frame: number, events: ClickEvent[]): void {
    const earliest = frame + Math.round(LEAD_SEC * this.#sampleRate);
    switch (command.type) {
      case 'play':
        this.#reset(frame, events);
        this.#timeline.start(command.segments, earliest);
        break;
      case 'replace-after':
        // while paused the timeline stands still, and so does the moment that counts as now
        this.#timeline.replaceAfter(
          command.segmentId,
          command.segments,
          earliest - frame + (this.#pausedAt ?? frame),
        );
        break;
      case 'stop':
        this.#reset(frame, events);
        break;
      case 'pause':
        if (this.#pausedAt !== null || !this.#timeline.isPlaying) break;
        this.#silence();
        this.#pausedAt = frame;
        events.push({ type: 'paused', frame });
        break;
      case 'resume':
        if (this.#pausedAt === null) break;
        this.#timeline.postpone(frame - this.#pausedAt);
        events.push({ type: 'resumed', frame, shift: frame - this.#pausedAt });
        this.#pausedAt = null;
        break;
      case 'volume':
        this.#targetLevel = command.volume;
        break;
    }
  }

  #reset(frame: number, events: ClickEvent[]): void {
    this.#silence();
    this.#pausedAt = null;
    this.#timeline.clear();
    events.push({ type: 'reset', frame });
  }

  #strike(accent: Accent, volume: number, offset: number): void {
    this.#voices.push({ sound: this.#sounds[accent], position: -offset, gain: volume, fall: 0 });
  }

  #silence(): void {
    for (const voice of this.#voices) voice.fall = voice.gain / (FADE_SEC * this.#sampleRate);
  }

  #mix(output: Float32Array): void {
    output.fill(0);
    for (const voice of this.#voices) addVoice(output, voice);
    this.#voices = this.#voices.filter(({ sound, position, gain }) => position < sound.length && gain > 0);
    const step = 1 / (FADE_SEC * this.#sampleRate);
    for (let index = 0; index < output.length; index++) {
      const missing = this.#targetLevel - this.#level;
      this.#level += Math.max(-step, Math.min(step, missing));
      output[index]! *= this.#level;
    }
  }
}

function addVoice(output: Float32Array, voice: Voice): void {
  const { sound, position } = voice;
  const last = Math.min(output.length, sound.length - position);
  for (let index = Math.max(0, -position); index < last && voice.gain > 0; index++) {
    output[index]! += sound[position + index]! * voice.gain;
    voice.gain -= voice.fall;
  }
  voice.position += output.length;
}

/**
 * The click of some segments as samples from their very start, without a lead, to the end of the last one. Throws a
 * RangeError for a segment that cannot be played, or that waits.
 */
export function renderClick(segments: readonly Segment[], sampleRate: number): Float32Array {
  for (const segment of segments) {
    checkSegment(segment);
    if (segment.waits) throw new RangeError(`Segment ${segment.id}: a segment that waits has no length`);
  }
  const lead = Math.round(LEAD_SEC * sampleRate);
  const end = segments.reduce(
    (start, segment) => exactSample(steadyTempo(segment.tempo), runBeats(segment), sampleRate, start),
    EXACT_ZERO,
  );
  const output = new Float32Array(lead + roundExact(end));
  const renderer = new ClickRenderer(sampleRate);
  renderer.take({ type: 'play', segments });
  renderer.render(output, 0);
  return output.subarray(lead);
}
