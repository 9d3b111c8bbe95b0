import silenceUrl from './silence.wav?url';

export interface MediaHandlers {
  onPlay: () => void;
  onPause: () => void;
}

/**
 * What plays, with pause, on the lock screen and on the keys of headphones. Systems show it only while a media element
 * plays, so a file of silence goes round beside the click. Where the browser has no media session, nothing happens.
 */
export class MediaControls {
  readonly #element: HTMLAudioElement | null;

  /** Call it within a user gesture. */
  constructor(title: string, detail: string, handlers: MediaHandlers) {
    if (!('mediaSession' in navigator)) {
      this.#element = null;
      return;
    }
    this.#element = new Audio(silenceUrl);
    this.#element.loop = true;
    const { mediaSession } = navigator;
    mediaSession.metadata = new MediaMetadata({ title, artist: detail });
    mediaSession.setActionHandler('play', handlers.onPlay);
    mediaSession.setActionHandler('pause', handlers.onPause);
    mediaSession.setActionHandler('stop', handlers.onPause);
  }

  setPlaying(isPlaying: boolean): void {
    if (!this.#element) return;
    navigator.mediaSession.playbackState = isPlaying ? 'playing' : 'paused';
    // refused without a gesture: the click needs no lock screen
    if (isPlaying) void this.#element.play().catch(() => undefined);
    else this.#element.pause();
  }

  close(): void {
    if (!this.#element) return;
    this.#element.pause();
    const { mediaSession } = navigator;
    mediaSession.metadata = null;
    mediaSession.playbackState = 'none';
    for (const action of ['play', 'pause', 'stop'] as const) mediaSession.setActionHandler(action, null);
  }
}
