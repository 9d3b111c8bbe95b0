import type { SealedSitting } from '$lib/core/practice/records';
import type { BookDatabase } from './database';
import { isSealed } from './row-shapes';
import { inPlainWords } from './trouble';

/** Sittings read at a time: some twenty thousand passes. */
const PIECE = 150;

/** The rows of the sealed sittings by the time at which they began, some at a time. */
export async function* sittingPieces(db: BookDatabase): AsyncIterable<SealedSitting[]> {
  const ids = await inPlainWords(() => db.sittings.orderBy('at').primaryKeys());
  for (let from = 0; from < ids.length; from += PIECE) {
    const rows = await inPlainWords(() => db.sittings.bulkGet(ids.slice(from, from + PIECE)));
    yield rows.filter((row) => row !== undefined);
  }
}

/** The newest sealed sittings with a drill on a tune, at most so many. */
export function newestOf(db: BookDatabase, tuneId: string, most: number): Promise<SealedSitting[]> {
  const isOfTune = (row: SealedSitting): boolean =>
    isSealed(row) && row.drills.some(({ passage }) => passage.tuneId === tuneId);
  return inPlainWords(() => db.sittings.orderBy('at').reverse().filter(isOfTune).limit(most).toArray());
}
