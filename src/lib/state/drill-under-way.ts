import type { Id } from '$lib/core/tune/tune';
import { drillLink, readDrillLink, type DrillOrder } from './drill-link';

/**
 * The drill that was begun and not ended, kept on the device: after a closed tab or a killed browser the learner goes
 * on with it, whatever the plan for the rest of the sitting says.
 */
const KEY = 'phrasewright-drill';

export function keepDrillUnderWay(sittingId: Id, order: DrillOrder): void {
  try {
    localStorage.setItem(KEY, `${sittingId} ${drillLink(order)}`);
  } catch {
    // full or switched off: the plan is what there is to go on with
  }
}

export function forgetDrillUnderWay(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // switched off: nothing was kept either
  }
}

/** The drill under way in a sitting, or `null`. */
export function drillUnderWay(sittingId: Id): DrillOrder | null {
  try {
    const [kept, link] = (localStorage.getItem(KEY) ?? '').split(' ');
    if (kept !== sittingId || link === undefined) return null;
    return readDrillLink(new URL(link, location.href).searchParams);
  } catch {
    return null;
  }
}
