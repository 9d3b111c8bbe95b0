import type { SealedSitting } from '$lib/core/practice/records';
import type { BookDatabase } from './database';
import { isSealed } from './row-shapes';
import { inPlainWords } from './trouble';

/** The newest sealed sittings with a drill on a tune, at most so many. */
export function newestOf(db: BookDatabase, tuneId: string, most: number): Promise<SealedSitting[]> {
  const isOfTune = (row: SealedSitting): boolean =>
    isSealed(row) && row.drills.some(({ passage }) => passage.tuneId === tuneId);
  return inPlainWords(() => db.sittings.orderBy('at').reverse().filter(isOfTune).limit(most).toArray());
}
