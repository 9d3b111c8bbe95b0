import type { Segment } from '$lib/audio/click-engine';
import type { Change } from '$lib/core/rhythm/timeline';
import type { SoundChoices, SoundDevice, SoundTitle } from './sound-device.svelte';

export interface DrillClickEvents {
  /** A stretch begins to be heard: its kind, the number in its id, and the tempo that it really has. */
  onHeard(kind: Segment['kind'], number: number, tempo: number): void;
  /** Every frame while open: seconds since the one before. */
  onFrame(elapsedSec: number): void;
}

/** The click engine as a drill hears it: what is heard now, frame by frame, and silence where there is no engine. */
export class DrillClick {
  /** Beats heard since the stretch began; `null` when nothing of the drill is heard. */
  beat: number | null = $state(null);
  readonly #device: SoundDevice;
  readonly #events: DrillClickEvents;
  /** What the device plays is the drill's. */
  #isPlaying = false;
  #frame = 0;
  #lastFrameMs = 0;
  #heard = '';

  constructor(device: SoundDevice, events: DrillClickEvents) {
    this.#device = device;
    this.#events = events;
  }

  get isSilent(): boolean {
    return this.#device.engine === null;
  }

  /** Call it within a user gesture. Where the click cannot be had, the device says why and the drill goes on in silence. */
  async open(choices: SoundChoices, title: SoundTitle): Promise<void> {
    await this.#device.open(choices, title);
    this.#lastFrameMs = performance.now();
    cancelAnimationFrame(this.#frame);
    this.#follow();
  }

  /** What plays, and what was sent ahead, goes on otherwise from the next beat. */
  change(change: Change): void {
    if (this.#isPlaying) this.#device.engine?.change(change);
  }

  play(segments: readonly Segment[]): void {
    this.playOn(segments);
    this.#heard = '';
  }

  /** Plays on from a stretch that the caller has already taken for heard. */
  playOn(segments: readonly Segment[]): void {
    this.#device.engine?.play(segments);
    this.#device.setPlaying(true);
    this.#isPlaying = true;
    this.#heard = segments[0]?.id ?? '';
  }

  replaceAfter(segmentId: string, segments: readonly Segment[]): void {
    this.#device.engine?.replaceAfter(segmentId, segments);
  }

  stop(): void {
    this.#device.engine?.stop();
    this.#device.setPlaying(false);
    this.#isPlaying = false;
    this.beat = null;
  }

  /** Holds the click where it is until `done`, then goes on if `mayGoOn` says so. */
  holdUntil(done: Promise<void>, mayGoOn: () => boolean): void {
    this.#device.engine?.pause();
    void done.then(() => {
      if (mayGoOn()) this.#device.engine?.resume();
    });
  }

  async close(): Promise<void> {
    cancelAnimationFrame(this.#frame);
    this.stop();
    await this.#device.close();
  }

  #follow(): void {
    this.#frame = requestAnimationFrame(() => this.#follow());
    const nowMs = performance.now();
    const elapsedSec = (nowMs - this.#lastFrameMs) / 1000;
    this.#lastFrameMs = nowMs;
    const position = this.#isPlaying ? (this.#device.engine?.now() ?? null) : null;
    this.beat = position?.beats ?? null;
    if (position && position.segment.id !== this.#heard) {
      const { id, kind, tempo } = position.segment;
      this.#heard = id;
      this.#events.onHeard(kind, Number(id.split('-').at(-1)), tempo);
    }
    this.#events.onFrame(elapsedSec);
  }
}
