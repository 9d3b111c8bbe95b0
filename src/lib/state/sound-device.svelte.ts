import type { ClickEngine } from '$lib/audio/click-engine';
import type { MediaControls } from '$lib/audio/media-controls';
import type { Settings } from '$lib/core/book/settings';

export type SoundChoices = Pick<Settings, 'clickVolume' | 'pluckVolume' | 'clickSound' | 'latencyNudgeMs'>;

/** What a lock screen shows while it plays. */
export interface SoundTitle {
  title: string;
  detail: string;
}

export interface SoundHandlers {
  /** The system took the sound away, or a key of the headphones did. */
  onInterrupted: () => void;
  /** Asked to play, from the lock screen or by a key of the headphones. */
  onAskedToPlay: () => void;
}

/** A screen's one engine, opened by the first touch that wants sound, and what the lock screen shows of it. */
export class SoundDevice {
  /** The sentence of a browser that cannot give the sound. */
  silence: string | null = $state(null);
  /** The sentence of a browser that gives a weaker click than it should. */
  notice: string | null = $state(null);
  readonly #handlers: SoundHandlers;
  #engine: ClickEngine | null = null;
  #controls: MediaControls | null = null;
  #shown = '';
  #opening: Promise<ClickEngine | null> | null = null;
  #isClosed = false;

  constructor(handlers: SoundHandlers) {
    this.#handlers = handlers;
  }

  get engine(): ClickEngine | null {
    return this.#engine;
  }

  /**
   * The engine, opened now if it is not. Call it within a user gesture. Where there is no sound to be had, or the device was
   * closed meanwhile: `null`, and `silence` says why.
   */
  async open(choices: SoundChoices, title: SoundTitle): Promise<ClickEngine | null> {
    this.#opening ??= this.#engine ? Promise.resolve(this.#engine) : this.#open(choices);
    try {
      const engine = await this.#opening;
      if (engine) await this.#show(title);
      return this.#engine;
    } finally {
      this.#opening = null;
    }
  }

  /** Volumes, sound and the visual beat's nudge, at once. */
  choose({ clickVolume, pluckVolume, clickSound, latencyNudgeMs }: SoundChoices): void {
    this.#engine?.setVolume(clickVolume);
    this.#engine?.setStringVolume(pluckVolume);
    this.#engine?.setSound(clickSound);
    this.#engine?.setNudge(latencyNudgeMs);
  }

  /** What the lock screen says. */
  setPlaying(isPlaying: boolean): void {
    this.#controls?.setPlaying(isPlaying);
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    const engine = this.#engine;
    this.#engine = null;
    this.#controls?.close();
    this.#controls = null;
    await engine?.close();
  }

  async #open(choices: SoundChoices): Promise<ClickEngine | null> {
    const { ClickEngine, ClickUnavailable } = await import('$lib/audio/click-engine');
    try {
      const engine = await ClickEngine.open();
      if (this.#isClosed) {
        await engine.close();
        return null;
      }
      this.#engine = engine;
      this.silence = null;
      this.notice = engine.notice;
      this.choose(choices);
      engine.onInterrupted(this.#handlers.onInterrupted);
      return engine;
    } catch (error) {
      if (!(error instanceof ClickUnavailable)) throw error;
      this.silence = error.message;
      return null;
    }
  }

  async #show({ title, detail }: SoundTitle): Promise<void> {
    const { MediaControls } = await import('$lib/audio/media-controls');
    const shown = `${title}\n${detail}`;
    if (this.#isClosed || shown === this.#shown) return;
    this.#shown = shown;
    this.#controls?.close();
    this.#controls = new MediaControls(title, detail, {
      onPlay: this.#handlers.onAskedToPlay,
      onPause: this.#handlers.onInterrupted,
    });
  }
}
