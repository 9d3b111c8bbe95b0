import { TIME_MAX, TIME_MIN } from '$lib/core/book/limits';
import type { Moment } from '$lib/core/time/moment';
import { momentAfter, momentWithin } from '$lib/core/time/running-moment';

/** The only reading of the device's clock outside audio: now, and the local offset at this instant. */
export function momentNow(): Moment {
  const now = new Date();
  const moment = { at: now.getTime(), offsetMin: 0 - now.getTimezoneOffset() };
  return momentWithin(moment, TIME_MIN, TIME_MAX);
}

let latest: Moment | null = null;

/** The moment to write into the log: in the order of writing, also where the clock is set back in the middle of a sitting. */
export function logMoment(): Moment {
  latest = momentAfter(latest, momentNow());
  return latest;
}

/** What is written from now on comes after this moment of a sitting that goes on, as far as `momentAfter` says. */
export function goOnAfter({ at, offsetMin }: Moment): void {
  if (!latest || at >= latest.at) latest = { at: at + 1, offsetMin };
}
