import type { Drill, LogEntry, SealedSitting, Sitting } from '$lib/core/practice/records';
import { lastMoment } from '$lib/core/practice/sitting';
import { countUnsaved } from './backup-notes';
import type { BookDatabase } from './database';
import { isDrill, isEntry, isSitting } from './row-shapes';

/** The sitting that has not been closed, with what was played in it so far, in the order of writing. */
export interface OpenSitting {
  sitting: Sitting;
  drills: Drill[];
  log: LogEntry[];
}

/** Late entries look for their drill in this many of the newest sittings. */
const LATE_SITTINGS = 50;

/** The open sitting as its rows have it; rows that are no records are left out. To be called in a transaction over sitting, drills and passes. */
export async function readOpen(db: BookDatabase): Promise<OpenSitting | null> {
  const row = await db.sitting.get('open');
  if (!row || !isSitting(row.sitting)) return null;
  const drills = (await db.drills.toArray()).map(({ drill }) => drill).filter(isDrill);
  const log = (await db.passes.toArray()).map(({ entry }) => entry).filter(isEntry);
  return { sitting: row.sitting, drills, log };
}

/**
 * The open sitting as one record, closed at a time (by default at the last thing written in it). Entries whose drill, and
 * corrections whose pass, was lost to damage say nothing any more and are left out.
 */
export function sealOpen(open: OpenSitting, endedAt = lastMoment(open).at): SealedSitting {
  const { sitting, drills, log } = open;
  const known = new Set([...drills, ...log].map(({ id }) => id));
  const sound = log.filter(
    (entry) => known.has(entry.drillId) && (entry.kind === 'pass' || known.has(entry.passId)),
  );
  return { ...sitting, endedAt, drills, log: sound };
}

export function hasPass(log: readonly LogEntry[]): boolean {
  return log.some(({ kind }) => kind === 'pass');
}

/**
 * Turns the open rows into one record and removes them: the record, or `null` when nothing was played (or open). To be
 * called in a transaction over sitting, drills, passes, sittings and meta.
 */
export async function sealRows(db: BookDatabase, endedAt?: number): Promise<SealedSitting | null> {
  const open = await readOpen(db);
  await Promise.all([db.sitting.clear(), db.drills.clear(), db.passes.clear()]);
  if (!open || !hasPass(open.log)) return null;
  const sealed = sealOpen(open, endedAt);
  const known = await db.sittings.get(sealed.id);
  const united = known ? { ...sealed, ...unite(known, sealed) } : sealed;
  await db.sittings.put(united);
  await countUnsaved(db);
  return united;
}

/**
 * Puts drills and entries that are not yet there behind the open rows; counts the entries added. To be called in a
 * transaction over drills and passes.
 */
export async function addToOpen(
  db: BookDatabase,
  drills: readonly Drill[],
  log: readonly LogEntry[],
): Promise<LogEntry[]> {
  const drillIds = new Set((await db.drills.toArray()).map(({ id }) => id));
  const entryIds = new Set((await db.passes.toArray()).map(({ id }) => id));
  const newDrills = drills.filter(({ id }) => !drillIds.has(id));
  const newLog = log.filter(({ id }) => !entryIds.has(id));
  await db.drills.bulkAdd(newDrills.map((drill) => ({ id: drill.id, drill })));
  await db.passes.bulkAdd(newLog.map((entry) => ({ id: entry.id, entry })));
  return newLog;
}

/**
 * Puts an entry into the sealed sitting that has its drill: another tab closed the sitting meanwhile, or a mark is
 * changed after the end. `null` when no recent sitting has the drill. To be called in a transaction over sittings.
 */
export async function addLate(db: BookDatabase, entry: LogEntry): Promise<SealedSitting | null> {
  const recent = await db.sittings.orderBy('at').reverse().limit(LATE_SITTINGS).toArray();
  const sitting = recent.find(({ drills }) => drills.some(({ id }) => id === entry.drillId));
  if (!sitting) return null;
  if (sitting.log.some(({ id }) => id === entry.id)) return sitting;
  if (entry.kind === 'correction' && !sitting.log.some(({ id }) => id === entry.passId)) return null;
  const longer = { ...sitting, log: [...sitting.log, entry], endedAt: Math.max(sitting.endedAt, entry.at) };
  await db.sittings.put(longer);
  return longer;
}

function unite(a: SealedSitting, b: SealedSitting): Pick<SealedSitting, 'drills' | 'log'> {
  const added = <T extends { id: string }>(old: readonly T[], more: readonly T[]): T[] => [
    ...old,
    ...more.filter(({ id }) => old.every((one) => one.id !== id)),
  ];
  return { drills: added(a.drills, b.drills), log: added(a.log, b.log) };
}
