import type { Offline } from '$lib/offline/updates';

/** What the service worker has to say: a first copy is complete, or a newer version waits to be asked for. */
class Updates {
  /** True once, on the visit on which everything came onto the device. */
  isNewlyOffline = $state(false);
  isWaiting = $state(false);
  /** The learner said yes while a drill was under way in another tab: that drill is played to its end first. */
  isHeldUp = $state(false);
  #offline: Offline | null = null;

  /** Begins to listen; loaded after the first screen is up. */
  async watch(): Promise<void> {
    const { registerOffline } = await import('$lib/offline/updates');
    this.#offline = registerOffline({
      onReady: () => (this.isNewlyOffline = true),
      onUpdateWaiting: () => (this.isWaiting = true),
      onUpdateTaken: () => (this.isWaiting = true),
    });
  }

  /** Takes the new version and reloads: only ever on the learner's word, and never during a drill in any tab. */
  async load(): Promise<void> {
    const { isDrillUnderWay } = await import('$lib/offline/drill-lock');
    this.isHeldUp = await isDrillUnderWay();
    if (this.isHeldUp) return;
    await this.#offline?.acceptUpdate().catch(() => {
      // another tab has accepted it already: reloading is all that is left to do
    });
    location.reload();
  }
}

export const updates = new Updates();
