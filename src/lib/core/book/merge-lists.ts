import { byId, compareText } from './book';
import { canonicalJson } from './canonical-json';

/** Of two copies of a record the one edited later; equal times are decided by the greater canonical JSON of their faces. */
export function later<T>(a: T, b: T, time: (record: T) => number, face: (record: T) => unknown): T {
  // most copies are equal, and this says so ten times as fast as canonical JSON
  if (a === b || JSON.stringify(a) === JSON.stringify(b)) return a;
  const order = time(a) - time(b) || compareText(canonicalJson(face(a)), canonicalJson(face(b)));
  return order >= 0 ? a : b;
}

/** Both lists in one: records of the same key are merged. */
export function mergeLists<T>(
  a: readonly T[],
  b: readonly T[],
  keyOf: (record: T) => string,
  merge: (one: T, other: T) => T,
): T[] {
  const merged = new Map<string, T>();
  for (const record of [...a, ...b]) {
    const known = merged.get(keyOf(record));
    merged.set(keyOf(record), known === undefined ? record : merge(known, record));
  }
  return [...merged.values()];
}

/** The same by id, in the order of both where they agree, else in that of the ids. */
export function mergeRuns<T extends { id: string }>(
  a: readonly T[],
  b: readonly T[],
  merge: (one: T, other: T) => T,
): T[] {
  const merged = mergeLists(a, b, ({ id }) => id, merge);
  const agree = a.length === b.length && a.every(({ id }, index) => id === b[index]?.id);
  return agree ? merged : merged.sort(byId);
}
