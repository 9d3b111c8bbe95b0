import { HOUR_MS, MINUTE_MS, type Moment } from '../time/moment';
import { practiceDay } from '../time/practice-day';
import type { Drill, LogEntry, Sitting } from './records';

/** A sitting with what was played in it so far. */
export interface SittingSoFar {
  sitting: Sitting;
  drills: readonly Drill[];
  log: readonly LogEntry[];
}

/** A pause longer than this is not practice. */
const PAUSE_MAX_MS = 5 * MINUTE_MS;

/** A sitting left open is over when nothing was played in it for this long, or when the clock was set back by as much. */
const STALE_AFTER_MS = 3 * HOUR_MS;

/** The newest moment of a sitting: its beginning, a drill's, or an entry's. */
export function lastMoment({ sitting, drills, log }: SittingSoFar): Moment {
  return [sitting, ...drills, ...log].reduce<Moment>(
    (last, entry) => (entry.at > last.at ? entry : last),
    sitting,
  );
}

/**
 * Minutes of practice since the sitting began, pauses counted up to five minutes each. A clock that was set back
 * counts as standing still.
 */
export function minutesSpent({ sitting, drills, log }: SittingSoFar, now: Moment): number {
  const instants = [sitting, ...drills, ...log].map(({ at }) => at).sort((a, b) => a - b);
  let spentMs = 0;
  let before = sitting.at;
  for (const at of [...instants, now.at]) {
    spentMs += Math.min(PAUSE_MAX_MS, Math.max(0, at - before));
    before = Math.max(before, at);
  }
  return spentMs / MINUTE_MS;
}

/** Minutes of practice since the last pause of five minutes or more, or since the sitting began. */
export function minutesSinceRest({ sitting, drills, log }: SittingSoFar, now: Moment): number {
  const instants = [...drills, ...log, now].map(({ at }) => at).sort((a, b) => a - b);
  let playedMs = 0;
  let before = sitting.at;
  for (const at of instants) {
    const gapMs = Math.max(0, at - before);
    playedMs = gapMs >= PAUSE_MAX_MS ? 0 : playedMs + gapMs;
    before = Math.max(before, at);
  }
  return playedMs / MINUTE_MS;
}

/** Whether a sitting found open belongs to the past: another practice day's, or long silent. */
export function isStale(open: SittingSoFar, now: Moment, dayStartsAtHour: number): boolean {
  const last = lastMoment(open);
  return (
    practiceDay(last, dayStartsAtHour) !== practiceDay(now, dayStartsAtHour) ||
    Math.abs(now.at - last.at) > STALE_AFTER_MS
  );
}
