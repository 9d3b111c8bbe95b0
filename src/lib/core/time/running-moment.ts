import { HOUR_MS, type Moment } from './moment';

/**
 * A clock set back by up to this while someone practises is taken for a correction of the clock or of its hour (time zones
 * and daylight saving move the offset and not the instant, but clocks are set by hand too). Longer than any pause within a sitting.
 */
const SETBACK_MAX_MS = 3 * HOUR_MS;

/**
 * The moment to write behind `last`: `now`, or the instant of `last` again where the clock was set back a little, so that
 * what was played later never stands earlier. A clock set back by more is believed. The offset is always that of `now`.
 */
export function momentAfter(last: Moment | null, now: Moment): Moment {
  const isSetBack = last !== null && now.at < last.at && last.at - now.at <= SETBACK_MAX_MS;
  return isSetBack ? { at: last.at, offsetMin: now.offsetMin } : now;
}

/** The moment, held within what a record may say (Unix ms, minutes): a clock far in the future costs no pass. */
export function momentWithin(moment: Moment, min: number, max: number): Moment {
  return { ...moment, at: Math.min(max, Math.max(min, moment.at)) };
}
