/** Where the build puts it. */
export const SERVICE_WORKER = '/service-worker.js';

/** Asks a waiting version to take over now, in every open tab. */
export const SKIP_WAITING = 'SKIP_WAITING';
/** Asks for the version before to be served again; answered with a `StepBackAnswer`. */
export const STEP_BACK = 'STEP_BACK';
/** Asks for every file of this version to be fetched anew; answered with a `MendAnswer`. */
export const MEND = 'MEND';

/** What a page may say to the service worker; the last two come with a port for the answer. */
export interface OfflineMessage {
  type: typeof SKIP_WAITING | typeof STEP_BACK | typeof MEND;
}

/** False where no version before is kept. */
export type StepBackAnswer = boolean;

/** Files that were damaged or missing on this device and are whole now, or `null` when not every file could be had. */
export type MendAnswer = number | null;

/** @param data whatever a message event carried */
export function isOfflineMessage(data: unknown): data is OfflineMessage {
  if (typeof data !== 'object' || data === null || !('type' in data)) return false;
  return data.type === SKIP_WAITING || data.type === STEP_BACK || data.type === MEND;
}
