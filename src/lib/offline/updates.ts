import { Workbox, type WorkboxLifecycleEvent } from 'workbox-window';
import { scriptUrl } from '../script-urls';
import { SKIP_WAITING, type OfflineMessage } from './messages';

export interface OfflineEvents {
  /** Everything is on the device for the first time. Not called on later visits. */
  onReady(): void;
  /** A newer version is on the device and waits, here or found by another tab. Ask; never during a sitting. */
  onUpdateWaiting(): void;
  /**
   * A newer version took over because another tab accepted it. This page still runs the old code: reload as soon
   * as nothing is being played.
   */
  onUpdateTaken?(): void;
}

export interface Offline {
  /** Lets the waiting version take over. Resolves when it controls this page; the caller then reloads. */
  acceptUpdate(): Promise<void>;
}

/**
 * Registers the service worker after the page has loaded. Nothing here ever reloads the page.
 * @returns null where nothing could be registered (no service worker in this browser, no room, no network on a first
 *   visit: the app then works on, and the next visit tries again), and on the development server, which has no offline
 *   copy
 */
export async function registerOffline(events: OfflineEvents): Promise<Offline | null> {
  if (import.meta.env.DEV || !('serviceWorker' in navigator)) return null;
  const workbox = new Workbox(scriptUrl('/service-worker.js'), { updateViaCache: 'none' });
  let isControlled = navigator.serviceWorker.controller !== null;
  let accepted: (() => void) | null = null;

  workbox.addEventListener('activated', (event: WorkboxLifecycleEvent) => {
    if (!event.isUpdate && !event.isExternal) events.onReady();
  });
  workbox.addEventListener('waiting', () => {
    events.onUpdateWaiting();
  });
  workbox.addEventListener('controlling', () => {
    // the first installation also takes control, and the page then already runs the newest code
    const isUpdate = isControlled;
    isControlled = true;
    if (!isUpdate) return;
    if (accepted) accepted();
    else events.onUpdateTaken?.();
  });

  const registration = await register(workbox);
  if (!registration) return null;
  return {
    acceptUpdate: () =>
      new Promise((resolve, reject) => {
        const { waiting } = registration;
        if (!waiting) {
          reject(new Error('No newer version is waiting: call acceptUpdate only after onUpdateWaiting.'));
          return;
        }
        accepted = resolve;
        waiting.postMessage({ type: SKIP_WAITING } satisfies OfflineMessage);
      }),
  };
}

async function register(workbox: Workbox): Promise<ServiceWorkerRegistration | undefined> {
  try {
    return await workbox.register();
  } catch {
    // nothing on the page depends on it, and the learner cannot mend it: see the contract of registerOffline
    return undefined;
  }
}
