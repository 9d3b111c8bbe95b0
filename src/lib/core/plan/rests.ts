import { LEAST_MINUTES } from './candidates';
import { RETUNE_MINUTES, type Chosen } from './choose';
import type { PlanBreak } from './plan';

/** A break is due after 25 to 30 minutes and takes about five (SCIENCE.md section 5: convention, not trial-tested). */
const STRETCH_MINUTES = 30;
const BREAK_AFTER_MINUTES = 25;
const BREAK_MINUTES = 5;

/** How a stretch of time is shared between playing and rests. */
export interface Rests {
  /** Minutes to fill with items and retunings. */
  room: number;
  atMost: number;
  /** Minutes of the first stretch that are played already. */
  since: number;
}

/** `sinceRest`: minutes played since the last rest; they count only where the time that is left has room for a rest. */
export function restsIn(minutes: number, sinceRest: number): Rests {
  // one rest answers for a stretch, however far it was overplayed
  const before = Math.min(Math.max(0, sinceRest), STRETCH_MINUTES);
  const due = Math.ceil((minutes + before) / STRETCH_MINUTES) - 1;
  const atMost = Math.max(0, Math.min(due, Math.floor((minutes - LEAST_MINUTES) / BREAK_MINUTES)));
  const since = atMost > 0 ? before : 0;
  const room = Math.max(Math.min(minutes, STRETCH_MINUTES - since), minutes - atMost * BREAK_MINUTES);
  // what fits without any rest needs none
  return { room, atMost: minutes >= room + BREAK_MINUTES ? atMost : 0, since };
}

export interface Rested {
  items: Chosen[];
  breaks: PlanBreak[];
  total: number;
}

/** The items with their rests and minutes in all. What would make a stretch too long, with no rest left to give, is cut. */
export function withRests(
  items: readonly Chosen[],
  inHand: string | null,
  { atMost, since }: Omit<Rests, 'room'>,
): Rested {
  const kept: Chosen[] = [];
  const breaks: PlanBreak[] = [];
  let [stretch, total] = [since, 0];
  let tuning = inHand ?? items[0]?.state.tuning;
  for (const item of items) {
    const next = item.given + (item.state.tuning === tuning ? 0 : RETUNE_MINUTES);
    const due =
      stretch + next > STRETCH_MINUTES || (stretch >= BREAK_AFTER_MINUTES && breaks.length < atMost);
    if (due && breaks.length === atMost) break;
    if (due) {
      breaks.push({ afterItem: kept.length - 1, minutes: BREAK_MINUTES });
      total += BREAK_MINUTES;
      stretch = 0;
    }
    tuning = item.state.tuning;
    stretch += next;
    total += next;
    kept.push(item);
  }
  return { items: kept, breaks, total };
}
