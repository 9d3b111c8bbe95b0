import type { ClickEngine, Segment } from '$lib/audio/click-engine';

export interface DrillClickEvents {
  /** A stretch begins to be heard: its kind, the number in its id, and the tempo that it really has. */
  onHeard(kind: Segment['kind'], number: number, tempo: number): void;
  /** The system took the sound away. */
  onInterrupted(): void;
  /** Every frame while open: seconds since the one before. */
  onFrame(elapsedSec: number): void;
}

/** The click engine as a drill hears it: what is heard now, frame by frame, and silence where there is no engine. */
export class DrillClick {
  /** Beats heard since the stretch began; `null` when nothing is heard. */
  beat: number | null = $state(null);
  /** The sentence of a browser that cannot give the click. */
  silence: string | null = $state(null);
  readonly #events: DrillClickEvents;
  #engine: ClickEngine | null = null;
  #frame = 0;
  #lastFrameMs = 0;
  #heard = '';

  constructor(events: DrillClickEvents) {
    this.#events = events;
  }

  get isSilent(): boolean {
    return this.#engine === null;
  }

  /** Call it within a user gesture. Sets `silence` instead of failing where the click cannot be had. */
  async open(volume: number): Promise<void> {
    const { ClickEngine, ClickUnavailable } = await import('$lib/audio/click-engine');
    try {
      this.#engine = await ClickEngine.open();
      this.#engine.setVolume(volume);
      this.#engine.onInterrupted(() => this.#events.onInterrupted());
    } catch (error) {
      if (!(error instanceof ClickUnavailable)) throw error;
      this.silence = error.message;
    }
    this.#lastFrameMs = performance.now();
    this.#follow();
  }

  play(segments: readonly Segment[]): void {
    this.#heard = '';
    this.#engine?.play(segments);
  }

  /** Plays on from a stretch that the caller has already taken for heard. */
  playOn(segments: readonly Segment[]): void {
    this.#engine?.play(segments);
    this.#heard = segments[0]?.id ?? '';
  }

  replaceAfter(segmentId: string, segments: readonly Segment[]): void {
    this.#engine?.replaceAfter(segmentId, segments);
  }

  stop(): void {
    this.#engine?.stop();
    this.beat = null;
  }

  /** Holds the click where it is until `done`, then goes on if `mayGoOn` says so. */
  holdUntil(done: Promise<void>, mayGoOn: () => boolean): void {
    this.#engine?.pause();
    void done.then(() => {
      if (mayGoOn()) this.#engine?.resume();
    });
  }

  async close(): Promise<void> {
    cancelAnimationFrame(this.#frame);
    this.stop();
    await this.#engine?.close();
    this.#engine = null;
  }

  #follow(): void {
    this.#frame = requestAnimationFrame(() => this.#follow());
    const nowMs = performance.now();
    const elapsedSec = (nowMs - this.#lastFrameMs) / 1000;
    this.#lastFrameMs = nowMs;
    const position = this.#engine?.now() ?? null;
    this.beat = position?.beats ?? null;
    if (position && position.segment.id !== this.#heard) {
      const { id, kind, tempo } = position.segment;
      this.#heard = id;
      this.#events.onHeard(kind, Number(id.split('-').at(-1)), tempo);
    }
    this.#events.onFrame(elapsedSec);
  }
}
