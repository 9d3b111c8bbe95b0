import type { ClickEngine, Segment } from '$lib/audio/click-engine';
import type { MediaControls } from '$lib/audio/media-controls';
import type { Settings } from '$lib/core/book/settings';
import type { Change } from '$lib/core/rhythm/timeline';

export type ClickChoices = Pick<Settings, 'clickVolume' | 'pluckVolume' | 'clickSound' | 'latencyNudgeMs'>;

/** What a lock screen shows while the drill plays. */
export interface DrillTitle {
  title: string;
  detail: string;
}

export interface DrillClickEvents {
  /** A stretch begins to be heard: its kind, the number in its id, and the tempo that it really has. */
  onHeard(kind: Segment['kind'], number: number, tempo: number): void;
  /** The system took the sound away, or a key of the headphones did. */
  onInterrupted(): void;
  /** Asked to play, from the lock screen or by a key of the headphones. */
  onAskedToPlay(): void;
  /** Every frame while open: seconds since the one before. */
  onFrame(elapsedSec: number): void;
}

/** The click engine as a drill hears it: what is heard now, frame by frame, and silence where there is no engine. */
export class DrillClick {
  /** Beats heard since the stretch began; `null` when nothing is heard. */
  beat: number | null = $state(null);
  /** The sentence of a browser that cannot give the click. */
  silence: string | null = $state(null);
  /** The sentence of a browser that gives a weaker click than it should. */
  notice: string | null = $state(null);
  readonly #events: DrillClickEvents;
  #engine: ClickEngine | null = null;
  #controls: MediaControls | null = null;
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
  async open(choices: ClickChoices, { title, detail }: DrillTitle): Promise<void> {
    const [{ ClickEngine, ClickUnavailable }, { MediaControls }] = await Promise.all([
      import('$lib/audio/click-engine'),
      import('$lib/audio/media-controls'),
    ]);
    try {
      this.#engine = await ClickEngine.open();
      this.notice = this.#engine.notice;
      this.choose(choices);
      this.#engine.onInterrupted(() => this.#events.onInterrupted());
      this.#controls = new MediaControls(title, detail, {
        onPlay: () => this.#events.onAskedToPlay(),
        onPause: () => this.#events.onInterrupted(),
      });
    } catch (error) {
      if (!(error instanceof ClickUnavailable)) throw error;
      this.silence = error.message;
    }
    this.#lastFrameMs = performance.now();
    this.#follow();
  }

  /** Volumes, sound and the visual beat's nudge, at once. */
  choose({ clickVolume, pluckVolume, clickSound, latencyNudgeMs }: ClickChoices): void {
    this.#engine?.setVolume(clickVolume);
    this.#engine?.setStringVolume(pluckVolume);
    this.#engine?.setSound(clickSound);
    this.#engine?.setNudge(latencyNudgeMs);
  }

  /** What plays, and what was sent ahead, goes on otherwise from the next beat. */
  change(change: Change): void {
    this.#engine?.change(change);
  }

  play(segments: readonly Segment[]): void {
    this.#heard = '';
    this.#engine?.play(segments);
    this.#controls?.setPlaying(true);
  }

  /** Plays on from a stretch that the caller has already taken for heard. */
  playOn(segments: readonly Segment[]): void {
    this.#engine?.play(segments);
    this.#controls?.setPlaying(true);
    this.#heard = segments[0]?.id ?? '';
  }

  replaceAfter(segmentId: string, segments: readonly Segment[]): void {
    this.#engine?.replaceAfter(segmentId, segments);
  }

  stop(): void {
    this.#engine?.stop();
    this.#controls?.setPlaying(false);
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
    this.#controls?.close();
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
