/**
 * Keeps the screen on from `keep` to `release`. The browser takes the lock away when the page is hidden; `keep` may be
 * called again then. Does nothing where the browser cannot or will not.
 */
export class ScreenAwake {
  #lock: WakeLockSentinel | null = null;

  async keep(): Promise<void> {
    if (!('wakeLock' in navigator)) return;
    try {
      this.#lock = await navigator.wakeLock.request('screen');
    } catch {
      // low battery or a hidden page: practising goes on, the screen may sleep
    }
  }

  async release(): Promise<void> {
    await this.#lock?.release();
    this.#lock = null;
  }
}
