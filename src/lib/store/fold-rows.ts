import type { FoldHead, FoldPart } from '$lib/core/progress/kept-fold';
import type { BookDatabase } from './database';

/** Key in `meta` of how often tunes or sealed sittings have changed: a fold that was kept holds for one number only. */
export const LOG_REVISION = 'log';
/** Key in `meta` of the head of the fold that was kept, and what stands before each part's number. */
export const FOLD_HEAD = 'fold';
export const FOLD_PART = 'fold/';

/** 0 before the first change. To be called in a transaction over meta, or in none. */
export async function readLogRevision(db: BookDatabase): Promise<number> {
  return revisionIn(await db.meta.get(LOG_REVISION));
}

/** What a row of the meta table says of it. */
export function revisionIn(row: unknown): number {
  const { value } = (row ?? {}) as { value?: unknown };
  return typeof value === 'number' ? value : 0;
}

/** To be called in the transaction that changes tunes or sealed sittings, with meta in it. */
export async function raiseLogRevision(db: BookDatabase): Promise<void> {
  await db.meta.put({ key: LOG_REVISION, value: (await readLogRevision(db)) + 1 });
}

export function isFoldHead(value: unknown): value is FoldHead {
  if (typeof value !== 'object' || value === null) return false;
  const { ratioSum, ratioCount, last } = value as Partial<Record<keyof FoldHead, unknown>>;
  return Number.isFinite(ratioSum) && Number.isFinite(ratioCount) && last !== undefined;
}

/** Enough that a damaged row is not gone on from. */
export function isFoldPart(value: unknown): value is FoldPart {
  if (typeof value !== 'object' || value === null) return false;
  const { part, states, tuneIds, weekCounts, weeks } = value as Partial<FoldPart>;
  return (
    typeof part === 'number' &&
    Array.isArray(tuneIds) &&
    Array.isArray(weekCounts) &&
    weeks instanceof Float64Array &&
    typeof states === 'object' &&
    Array.isArray(states.keys) &&
    states.numbers instanceof Float64Array &&
    states.cells instanceof Float32Array &&
    states.recent instanceof Int32Array &&
    states.history instanceof Float32Array
  );
}
