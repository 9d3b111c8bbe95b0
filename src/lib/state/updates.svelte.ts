import type { Offline } from '$lib/offline/updates';

/** What the service worker has to say: a first copy is complete, or a newer version waits to be asked for. */
class Updates {
  /** True once, on the visit on which everything came onto the device. */
  isNewlyOffline = $state(false);
  isWaiting = $state(false);
  #offline: Offline | null = null;

  /** Begins to listen; loaded after the first screen is up. */
  async watch(): Promise<void> {
    const { registerOffline } = await import('$lib/offline/updates');
    this.#offline = await registerOffline({
      onReady: () => (this.isNewlyOffline = true),
      onUpdateWaiting: () => (this.isWaiting = true),
      onUpdateTaken: () => (this.isWaiting = true),
    });
  }

  /** Takes the new version and reloads: only ever on the learner's word. */
  async load(): Promise<void> {
    await this.#offline?.acceptUpdate().catch(() => {
      // another tab has accepted it already: reloading is all that is left to do
    });
    location.reload();
  }
}

export const updates = new Updates();
