/** What a page may say to the service worker. */
export interface OfflineMessage {
  type: typeof SKIP_WAITING;
}

/** Asks a waiting version to take over now, in every open tab. */
export const SKIP_WAITING = 'SKIP_WAITING';

/** @param data whatever a message event carried */
export function isOfflineMessage(data: unknown): data is OfflineMessage {
  return typeof data === 'object' && data !== null && 'type' in data && data.type === SKIP_WAITING;
}
