/**
 * A moment as the log keeps it: the instant, and what the local clock showed.
 * `at`: UTC, whole milliseconds since 1970. `offsetMin`: local time minus UTC, in minutes (India +330, New York in winter -300).
 */
export interface Moment {
  at: number;
  offsetMin: number;
}

/** The moment of a damaged record: an instant that is no number counts as 1970, an offset that is none as UTC. */
export function soundMoment({ at, offsetMin }: Moment): Moment {
  return { at: Number.isFinite(at) ? at : 0, offsetMin: Number.isFinite(offsetMin) ? offsetMin : 0 };
}

export const MINUTE_MS = 60_000;
export const HOUR_MS = 3_600_000;
export const DAY_MS = 86_400_000;
