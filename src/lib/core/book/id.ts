import type { Id } from '../tune/tune';

/** RFC 9562 section 5.7: version 7, variant 10, in its lower-case 36-character form. */
export const ID_PATTERN = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

export function isId(value: unknown): value is Id {
  return typeof value === 'string' && ID_PATTERN.test(value);
}
