import type { Moment } from '$lib/core/time/moment';

/** The only reading of the device's clock outside audio: now, and the local offset at this instant. */
export function momentNow(): Moment {
  const now = new Date();
  return { at: now.getTime(), offsetMin: 0 - now.getTimezoneOffset() };
}
