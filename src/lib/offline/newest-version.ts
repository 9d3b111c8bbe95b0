import { isDrillUnderWay } from './drill-lock';
import { MEND, SERVICE_WORKER, STEP_BACK, type MendAnswer, type OfflineMessage } from './messages';
import { ANSWER_MS, atMost, reached, takeWaiting } from './worker-states';

/**
 * What came of asking for the newest version: reload the page for it; there is none newer, and the files here are
 * whole; the server could not be reached; a drill is under way in another tab, and nothing was done.
 */
export type NewestAnswer = 'reload' | 'none' | 'no network' | 'drill';

/** Fetches and takes the newest version that the server has, or mends the files of this one. Never throws. */
export async function getNewest(): Promise<NewestAnswer> {
  if (!(await isReachable())) return 'no network';
  const registration = await registrationHere();
  // without an offline copy every load comes from the server
  if (!registration) return 'reload';
  await registration.update().catch(() => {
    // the server's newest is itself broken: what is here may still be mended
  });
  const { installing } = registration;
  if (installing) await atMost(ANSWER_MS, reached(installing, ['installed', 'activated', 'redundant']));
  const { waiting } = registration;
  if (!waiting) return (await mendFiles(registration)) ? 'reload' : 'none';
  if (await isDrillUnderWay()) return 'drill';
  await takeWaiting(waiting);
  return 'reload';
}

/** Goes back to the version before: true when the next load is of it. Never throws. */
export async function stepBack(): Promise<boolean> {
  const registration = await registrationHere();
  return (await ask(registration?.active, STEP_BACK)) === true;
}

/** Whether any file of this version had to be fetched anew. */
async function mendFiles(registration: ServiceWorkerRegistration): Promise<boolean> {
  const mended = (await ask(registration.active, MEND)) as MendAnswer;
  return (mended ?? 0) > 0;
}

async function registrationHere(): Promise<ServiceWorkerRegistration | undefined> {
  if (!('serviceWorker' in navigator)) return undefined;
  return navigator.serviceWorker.getRegistration().catch(() => undefined);
}

/** HEAD: the service worker answers GET alone, so this one goes to the server. */
async function isReachable(): Promise<boolean> {
  try {
    return (await fetch(SERVICE_WORKER, { method: 'HEAD', cache: 'no-store' })).ok;
  } catch {
    // no network, or no server: the same to the learner
    return false;
  }
}

/** The worker's answer, or `null` when there is none. */
function ask(
  worker: ServiceWorker | null | undefined,
  type: typeof MEND | typeof STEP_BACK,
): Promise<unknown> {
  return new Promise((resolve) => {
    if (!worker) {
      resolve(null);
      return;
    }
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<unknown>) => {
      resolve(data);
    };
    setTimeout(() => {
      resolve(null);
    }, ANSWER_MS);
    worker.postMessage({ type } satisfies OfflineMessage, [port2]);
  });
}
