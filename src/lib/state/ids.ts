import { v7 } from 'uuid';
import type { Id } from '$lib/core/tune/tune';
import { logMoment } from './clock';

const RANDOM_BITS = 31;
let latestMs = -1;
let sequence = 0;

/** A fresh UUIDv7 (RFC 9562): ids sort in the order in which they were made, also where the clock is set back meanwhile. */
export function nextId(): Id {
  const { at } = logMoment();
  // section 6.2, method 1: a counter within one millisecond that begins at random, its highest bit 0
  if (at > latestMs) sequence = Math.floor(Math.random() * 2 ** RANDOM_BITS);
  else sequence += 1;
  latestMs = Math.max(latestMs, at);
  return v7({ msecs: latestMs, seq: sequence });
}
