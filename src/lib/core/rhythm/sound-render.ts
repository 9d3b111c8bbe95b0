import { exactSample, runBeats } from './click-times';
import type { ClickSound } from './click-sound';
import { ClickVoice } from './click-voice';
import { EXACT_ZERO, roundExact } from './exact';
import type { Accent } from './patterns';
import type { PluckCue } from './pluck-cue';
import { checkSegment, segmentTempo, type Segment } from './segment';
import { Timeline, type Change, type TimelineCue, type TimelineEvent } from './timeline';
import { FADE_SEC, type Voice } from './voice';

export type VoiceName = 'click' | 'string';

export type SoundCommand =
  | { type: 'play'; segments: readonly Segment[] }
  | { type: 'replace-after'; segmentId: string; segments: readonly Segment[] }
  | { type: 'change'; change: Change }
  | { type: 'stop' }
  | { type: 'pause' }
  | { type: 'resume' }
  | { type: 'volume'; voice: VoiceName; volume: number }
  | { type: 'click-sound'; sound: ClickSound }
  /** What `spoken` segments count with (`countSounds`): too much work to be done on the audio thread. */
  | { type: 'count-words'; words: readonly Float32Array[] };

export type SoundEvent =
  | TimelineEvent
  | { type: 'click'; segmentId: string; frame: number; accent: Accent; volume: number }
  /** `play` or `stop` took hold: whatever was told before belongs to what is gone. */
  | { type: 'reset'; frame: number }
  | { type: 'paused'; frame: number }
  /** Everything that is still to come was put off by `shift` frames. */
  | { type: 'resumed'; frame: number; shift: number };

/** From a command to the first sample it can bring: time enough to tell the page before anything is heard. */
export const LEAD_SEC = 0.05;

/** Up to here the mix is left as it is; louder sums of click and string are bent so that they stay below 1. */
const KNEE = 0.9;

/** Frames that are rendered at a time offline: as many as a browser's audio thread asks for (Web Audio API). */
const BLOCK = 128;

/** One voice in the mix, with its own volume. */
class Strip {
  readonly voice: Voice<never>;
  readonly #step: number;
  #level = 1;
  target = 1;

  constructor(voice: Voice<never>, sampleRate: number) {
    this.voice = voice;
    this.#step = 1 / (FADE_SEC * sampleRate);
  }

  /** Adds the voice to `output`; `scratch` is as long and all zero, and is left so. */
  mix(output: Float32Array, scratch: Float32Array, frame: number): void {
    this.voice.render(scratch, frame);
    for (let index = 0; index < output.length; index++) {
      const missing = this.target - this.#level;
      this.#level += Math.max(-this.#step, Math.min(this.#step, missing));
      output[index]! += scratch[index]! * this.#level;
    }
    scratch.fill(0);
  }
}

/**
 * Segments as samples, block by block: the click, and the string if one is given. It holds no clock: the caller says
 * which frame it is at, and all blocks follow each other. Runs in an audio worklet, in Node and in a page alike.
 */
export class SoundRenderer {
  readonly #sampleRate: number;
  readonly #timeline: Timeline;
  readonly #click: ClickVoice;
  readonly #string: Voice<PluckCue> | null;
  readonly #strips: Partial<Record<VoiceName, Strip>>;
  #inbox: SoundCommand[] = [];
  #pausedAt: number | null = null;
  #scratch = new Float32Array(0);

  constructor(sampleRate: number, string: Voice<PluckCue> | null = null) {
    this.#sampleRate = sampleRate;
    this.#timeline = new Timeline(sampleRate);
    this.#click = new ClickVoice(sampleRate);
    this.#string = string;
    this.#strips = {
      click: new Strip(this.#click, sampleRate),
      ...(string ? { string: new Strip(string, sampleRate) } : {}),
    };
  }

  /** Takes a command; it holds from the start of the next block. Segments must have passed `checkSegment`. */
  take(command: SoundCommand): void {
    this.#inbox.push(command);
  }

  /** Overwrites `output` with the block that starts at `frame`, and tells what begins or ends within it. */
  render(output: Float32Array, frame: number): SoundEvent[] {
    const events: SoundEvent[] = [];
    for (const command of this.#inbox) this.#obey(command, frame, events);
    this.#inbox = [];
    if (this.#pausedAt === null) {
      for (const event of this.#timeline.advance(frame + output.length)) {
        if (event.type === 'cue') this.#strike(event, events);
        else events.push(event);
      }
    }
    this.#mix(output, frame);
    return events;
  }

  #obey(command: SoundCommand, frame: number, events: SoundEvent[]): void {
    const earliest = frame + Math.round(LEAD_SEC * this.#sampleRate);
    // while paused the timeline stands still, and so does the moment that counts as now
    const now = this.#pausedAt ?? frame;
    switch (command.type) {
      case 'play':
        this.#reset(frame, events);
        this.#timeline.start(command.segments, earliest);
        break;
      case 'replace-after':
        this.#timeline.replaceAfter(command.segmentId, command.segments, earliest - frame + now);
        break;
      case 'change':
        events.push(...this.#timeline.change(command.change, now));
        break;
      case 'stop':
        this.#reset(frame, events);
        break;
      case 'pause':
        this.#pause(frame, events);
        break;
      case 'resume':
        this.#resume(frame, events);
        break;
      case 'volume': {
        const strip = this.#strips[command.voice];
        if (strip) strip.target = command.volume;
        break;
      }
      case 'click-sound':
        this.#click.setSound(command.sound);
        break;
      case 'count-words':
        this.#click.setWords(command.words);
        break;
    }
  }

  #pause(frame: number, events: SoundEvent[]): void {
    if (this.#pausedAt !== null || !this.#timeline.isPlaying) return;
    this.#silence();
    this.#pausedAt = frame;
    events.push({ type: 'paused', frame });
  }

  #resume(frame: number, events: SoundEvent[]): void {
    if (this.#pausedAt === null) return;
    const shift = frame - this.#pausedAt;
    this.#timeline.postpone(shift);
    events.push({ type: 'resumed', frame, shift });
    this.#pausedAt = null;
  }

  #reset(frame: number, events: SoundEvent[]): void {
    this.#silence();
    this.#pausedAt = null;
    this.#timeline.clear();
    events.push({ type: 'reset', frame });
  }

  #silence(): void {
    this.#click.silence();
    this.#string?.silence();
  }

  #strike({ segment, due, frame, framesPerBeat }: TimelineCue, events: SoundEvent[]): void {
    if (due.voice === 'string') {
      this.#string?.strike(due.pluck, frame, framesPerBeat);
      return;
    }
    const { id, volume = 1, spoken = false } = segment;
    const { accent, count } = due.stroke;
    this.#click.strike({ accent, volume, spoken: spoken ? count : null }, frame);
    events.push({ type: 'click', segmentId: id, frame, accent, volume });
  }

  #mix(output: Float32Array, frame: number): void {
    output.fill(0);
    if (this.#scratch.length !== output.length) this.#scratch = new Float32Array(output.length);
    for (const strip of Object.values(this.#strips)) strip.mix(output, this.#scratch, frame);
    for (let index = 0; index < output.length; index++) {
      const size = Math.abs(output[index]!);
      if (size > KNEE) output[index] = Math.sign(output[index]!) * bent(size);
    }
  }
}

function bent(size: number): number {
  return KNEE + (1 - KNEE) * Math.tanh((size - KNEE) / (1 - KNEE));
}

/**
 * Segments as samples from their very start, without a lead, to the end of the last one and `tailSec` of what rings
 * on. Give a fresh `renderer` that has taken its volumes and its click sound. Throws a RangeError when there is nothing to play, and for a
 * segment that cannot be played, or that waits.
 */
export function renderSegments(
  segments: readonly Segment[],
  renderer: SoundRenderer,
  sampleRate: number,
  tailSec = 0,
): Float32Array {
  if (segments.length === 0) throw new RangeError('There is nothing to play: it has no segments');
  for (const segment of segments) {
    checkSegment(segment);
    if (segment.waits) throw new RangeError(`Segment ${segment.id}: a segment that waits has no length`);
  }
  const lead = Math.round(LEAD_SEC * sampleRate);
  const end = segments.reduce(
    (start, segment) => exactSample(segmentTempo(segment), runBeats(segment), sampleRate, start),
    EXACT_ZERO,
  );
  const output = new Float32Array(lead + roundExact(end) + Math.round(tailSec * sampleRate));
  renderer.take({ type: 'play', segments });
  for (let frame = 0; frame < output.length; frame += BLOCK) {
    renderer.render(output.subarray(frame, frame + BLOCK), frame);
  }
  return output.subarray(lead);
}
