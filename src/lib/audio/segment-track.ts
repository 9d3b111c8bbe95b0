import type { SoundEvent } from '$lib/core/rhythm/sound-render';
import { runBeats } from '$lib/core/rhythm/click-times';
import { toNumber } from '$lib/core/rhythm/rational';
import type { Segment } from '$lib/core/rhythm/segment';
import { beatAt, type TempoMap } from '$lib/core/rhythm/tempo-map';

export interface Position {
  segment: Segment;
  /** Beats since the segment began, not rounded; at most its length. */
  beats: number;
}

interface Stay {
  segment: Segment;
  tempo: TempoMap;
  startFrame: number;
  endFrame: number;
}

/** Sound is heard later than it is rendered, so a few segments that have ended are kept. */
const KEPT = 8;

/** Where a listener is, from the worklet's events: which segment, and how many beats into it. */
export class SegmentTrack {
  readonly #sampleRate: number;
  #stays: Stay[] = [];
  #pausedAt = Infinity;
  #resumedAt = 0;

  constructor(sampleRate: number) {
    this.#sampleRate = sampleRate;
  }

  follow(event: SoundEvent): void {
    const last = this.#stays.at(-1);
    if (event.type === 'segment-start') {
      const { segment, tempo, frame: startFrame } = event;
      this.#stays = [...this.#stays.slice(1 - KEPT), { segment, tempo, startFrame, endFrame: Infinity }];
    } else if (event.type === 'segment-change' && last) {
      Object.assign(last, { segment: event.segment, tempo: event.tempo });
    } else if (event.type === 'segment-end' && last) {
      last.endFrame = event.frame;
    } else if (event.type === 'paused') {
      this.#pausedAt = event.frame;
    } else if (event.type === 'resumed') {
      if (last && last.endFrame === Infinity) last.startFrame += event.shift;
      this.#pausedAt = Infinity;
      this.#resumedAt = event.frame;
    }
  }

  clear(): void {
    this.#stays = [];
    this.#pausedAt = Infinity;
    this.#resumedAt = 0;
  }

  /** The position at a frame of the context, or `null` before the first segment and after the last. */
  at(frame: number): Position | null {
    const moment = Math.max(Math.min(frame, this.#pausedAt), this.#resumedAt);
    const stay = this.#stays.findLast(({ startFrame }) => startFrame <= moment);
    if (!stay || moment >= stay.endFrame) return null;
    const { segment, tempo, startFrame } = stay;
    const beats = beatAt(tempo, (moment - startFrame) / this.#sampleRate);
    const length = segment.waits ? Infinity : toNumber(runBeats(segment));
    return { segment, beats: Math.min(beats, length) };
  }
}
