import type { FoldHead, FoldPart, KeptFold } from '$lib/core/progress/kept-fold';
import type { BookDatabase } from './database';

/** How often tunes or sealed sittings have changed: a fold that was kept holds for one number only. */
const LOG_REVISION = 'log';
/** The head of the fold that was kept, and before each tune's id its part. */
const HEAD = 'fold';
const PART = 'fold/';

interface HeadRow {
  head: FoldHead;
  revision: number;
  parts: number;
}

/** 0 before the first change. To be called in a transaction over meta, or in none. */
export async function readLogRevision(db: BookDatabase): Promise<number> {
  const value = (await db.meta.get(LOG_REVISION))?.value;
  return typeof value === 'number' ? value : 0;
}

/** To be called in the transaction that changes tunes or sealed sittings, with meta in it. */
export async function raiseLogRevision(db: BookDatabase): Promise<void> {
  await db.meta.put({ key: LOG_REVISION, value: (await readLogRevision(db)) + 1 });
}

/** The fold that was kept of the log as it stands, or `null`. To be called in a transaction over meta. */
export async function readFoldRows(db: BookDatabase): Promise<{ kept: KeptFold; revision: number } | null> {
  const row = (await db.meta.get(HEAD))?.value as HeadRow | undefined;
  if (!row || row.revision !== (await readLogRevision(db))) return null;
  const rows = await db.meta.where('key').startsWith(PART).toArray();
  const parts = rows.map(({ value }) => value).filter(isPart);
  if (parts.length !== row.parts || !isHead(row.head)) return null;
  return { kept: { head: row.head, parts }, revision: row.revision };
}

/**
 * Keeps a fold of the log at a revision: the parts that have changed, or all when `isWhole`. Nothing is kept when the log has changed
 * since. To be called in a transaction over meta.
 */
export async function putFoldRows(
  db: BookDatabase,
  { head, parts }: KeptFold,
  isWhole: boolean,
  revision: number,
): Promise<void> {
  if (revision !== (await readLogRevision(db))) return;
  const ofParts = db.meta.where('key').startsWith(PART);
  if (isWhole) await ofParts.delete();
  await db.meta.bulkPut(parts.map((part) => ({ key: PART + part.tuneId, value: part })));
  const value: HeadRow = { head, revision, parts: await ofParts.count() };
  await db.meta.put({ key: HEAD, value });
}

function isHead(value: unknown): value is FoldHead {
  if (typeof value !== 'object' || value === null) return false;
  const { ratioSum, ratioCount, last } = value as Partial<Record<keyof FoldHead, unknown>>;
  return Number.isFinite(ratioSum) && Number.isFinite(ratioCount) && last !== undefined;
}

/** Enough that a damaged row is not gone on from. */
function isPart(value: unknown): value is FoldPart {
  if (typeof value !== 'object' || value === null) return false;
  const { tuneId, states, weeks } = value as Partial<FoldPart>;
  return (
    typeof tuneId === 'string' &&
    weeks instanceof Float64Array &&
    typeof states === 'object' &&
    Array.isArray(states.passages) &&
    states.numbers instanceof Float64Array &&
    states.cells instanceof Float32Array &&
    states.recent instanceof Int32Array &&
    states.history instanceof Float32Array
  );
}
