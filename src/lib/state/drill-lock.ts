import { DRILL_LOCK } from '$lib/offline/drill-lock';

/**
 * One drill at a time, in whatever tab or window. Resolves to what lets the next one in, or to `null` while another
 * tab has it. A browser without locks lets every tab drill.
 */
export function takeDrillLock(): Promise<(() => void) | null> {
  return new Promise((resolve) => {
    if (!('locks' in navigator)) {
      resolve(() => undefined);
      return;
    }
    void navigator.locks.request(DRILL_LOCK, { ifAvailable: true }, (lock) => {
      if (!lock) {
        resolve(null);
        return undefined;
      }
      return new Promise<void>((release) => {
        resolve(release);
      });
    });
  });
}
