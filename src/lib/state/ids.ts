import { v7 } from 'uuid';
import type { Id } from '$lib/core/tune/tune';

/** A fresh UUIDv7 (RFC 9562): ids sort by the time at which they were made. */
export function nextId(): Id {
  return v7();
}
