import type { SealedSitting } from '$lib/core/practice/records';
import type { BookDatabase } from './database';
import { isSealed } from './row-shapes';

/** The newest sealed sittings with a drill on a tune, at most so many. */
export function newestOf(db: BookDatabase, tuneId: string, most: number): PromiseLike<SealedSitting[]> {
  const isOfTune = (row: SealedSitting): boolean =>
    isSealed(row) && row.drills.some(({ passage }) => passage.tuneId === tuneId);
  return db.sittings.orderBy('at').reverse().filter(isOfTune).limit(most).toArray();
}
