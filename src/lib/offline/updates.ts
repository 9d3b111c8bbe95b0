import { scriptUrl } from '../script-urls';
import { SERVICE_WORKER } from './messages';
import { reached, takeWaiting } from './worker-states';

export interface OfflineEvents {
  /** Everything is on the device for the first time. Not called on later visits. */
  onReady(): void;
  /** A newer version is on the device and waits, here or found by another tab. Ask; never during a sitting. */
  onUpdateWaiting(): void;
  /**
   * A newer version took over because another tab accepted it. This page still runs the old code: reload as soon
   * as nothing is being played.
   */
  onUpdateTaken(): void;
}

export interface Offline {
  /** Lets the waiting version take over. Resolves when it has; the caller then reloads. */
  acceptUpdate(): Promise<void>;
}

/** From one try for the first copy to the next. What has arrived is not fetched again, so a try costs little. */
const SHORTEST_MS = 5_000;
const LONGEST_MS = 1_800_000;
const GROWTH = 4;

/**
 * Registers the service worker, and goes on trying during this visit until there is a first copy. Nothing here ever
 * reloads the page or throws.
 * @returns null in a browser without service workers, and on the development server, which has no offline copy
 */
export function registerOffline(events: OfflineEvents): Offline | null {
  if (import.meta.env.DEV || !('serviceWorker' in navigator)) return null;
  const { serviceWorker } = navigator;
  /** A version is in use: what comes after it is an update. A page that was loaded past it has no controller. */
  let hasCopy = serviceWorker.controller !== null;
  let isAccepting = false;

  serviceWorker.addEventListener('controllerchange', () => {
    // the first copy also takes control, and the page then already runs the newest code
    if (!hasCopy) events.onReady();
    else if (!isAccepting) events.onUpdateTaken();
    hasCopy = true;
  });

  const tellOnceInstalled = async (worker: ServiceWorker | null): Promise<void> => {
    if (!worker) return;
    await reached(worker, ['installed', 'activating', 'activated', 'redundant']);
    if (hasCopy && worker.state === 'installed') events.onUpdateWaiting();
  };
  const found = ({ currentTarget }: Event): void => {
    void tellOnceInstalled((currentTarget as ServiceWorkerRegistration).installing);
  };

  void keepTrying(async () => {
    await hasLoaded();
    const registration = await serviceWorker.register(scriptUrl(SERVICE_WORKER), { updateViaCache: 'none' });
    hasCopy ||= registration.active?.state === 'activated';
    registration.addEventListener('updatefound', found);
    void tellOnceInstalled(registration.waiting ?? registration.installing);
    return isInUse(registration);
  });

  return {
    async acceptUpdate() {
      const waiting = (await serviceWorker.getRegistration())?.waiting;
      if (!waiting) {
        throw new Error('No newer version is waiting: call acceptUpdate only after onUpdateWaiting.');
      }
      isAccepting = true;
      await takeWaiting(waiting);
    },
  };
}

/** Whether a version is in use, once the first one is whole or has failed. */
async function isInUse({ active, waiting, installing }: ServiceWorkerRegistration): Promise<boolean> {
  const first = active ?? waiting ?? installing;
  if (!first) return false;
  await reached(first, ['activated', 'redundant']);
  return first.state === 'activated';
}

/** The first screen has the connection to itself. */
async function hasLoaded(): Promise<void> {
  if (document.readyState === 'complete') return;
  await new Promise((resolve) => {
    addEventListener('load', resolve, { once: true });
  });
}

/** Until it succeeds. The learner cannot mend what makes it fail, and nothing on the page depends on it. */
async function keepTrying(attempt: () => Promise<boolean>): Promise<void> {
  let pauseMs = SHORTEST_MS;
  while (!(await attempt().catch(() => false))) {
    await pause(pauseMs);
    pauseMs = Math.min(pauseMs * GROWTH, LONGEST_MS);
  }
}

/** Resolves after a while; sooner when the network or the learner has come back, though never at once. */
function pause(ms: number): Promise<void> {
  return new Promise((resolve) => {
    const listening = new AbortController();
    const end = (): void => {
      listening.abort();
      resolve();
    };
    const endSoon = (): void => {
      if (!document.hidden) setTimeout(end, SHORTEST_MS);
    };
    setTimeout(end, ms);
    addEventListener('online', endSoon, listening);
    document.addEventListener('visibilitychange', endSoon, listening);
  });
}
