import { heldLocks } from './held-locks';

/** Name of the Web Lock that the tab with the drill holds: one drill at a time, and no new version during it. */
export const DRILL_LOCK = 'phrasewright-drill';

/** Whether any tab or window is in a drill; false where the browser cannot say. */
export async function isDrillUnderWay(): Promise<boolean> {
  return (await heldLocks()).includes(DRILL_LOCK);
}
