import { SKIP_WAITING, type OfflineMessage } from './messages';

/** For a worker that was stopped to start and answer, on a slow phone. */
export const ANSWER_MS = 30_000;

/** Resolves when the worker is in one of the states. */
export function reached(worker: ServiceWorker, states: readonly ServiceWorkerState[]): Promise<void> {
  return new Promise((resolve) => {
    const look = (): void => {
      if (!states.includes(worker.state)) return;
      worker.removeEventListener('statechange', look);
      resolve();
    };
    worker.addEventListener('statechange', look);
    look();
  });
}

/** Resolves when the version that waits has taken over, in every open tab, or will not: reload then. */
export async function takeWaiting(waiting: ServiceWorker): Promise<void> {
  waiting.postMessage({ type: SKIP_WAITING } satisfies OfflineMessage);
  await atMost(ANSWER_MS, reached(waiting, ['activated', 'redundant']));
}

/** Resolves with the work, or without it after a while. */
export function atMost(ms: number, work: Promise<void>): Promise<void> {
  return Promise.race([work, new Promise<void>((resolve) => setTimeout(resolve, ms))]);
}
