import type { Drill, LogEntry, SealedSitting, Sitting } from '$lib/core/practice/records';
import { lastMoment } from '$lib/core/practice/sitting';
import { TIME_MAX } from '$lib/core/book/limits';
import type { Moment } from '$lib/core/time/moment';
import { countUnsaved } from './backup-notes';
import type { BookDatabase } from './database';
import { isDrill, isEntry, isSealed, isSitting } from './row-shapes';
import { isWhole, keepAside, keepAsideBefore, nameOf, type DamagedRow } from './set-aside';

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
  return (await sortOpen(db)).open;
}

/** Whether `healOpen` has nothing to do. To be called in a transaction over sitting, drills and passes. */
export async function isOpenWhole(db: BookDatabase): Promise<boolean> {
  const { damaged, stand } = await sortOpen(db);
  return damaged.length === 0 && !stand;
}

/**
 * Takes the rows that are no records out of the open sitting and sets them aside; a sitting whose own row is damaged goes
 * on under another. To be called in a transaction over sitting, drills, passes and meta.
 */
export async function healOpen(db: BookDatabase): Promise<void> {
  const { open, damaged, stand } = await sortOpen(db);
  if (damaged.length === 0 && !stand) return;
  await keepAside(db, damaged);
  for (const { table, row } of damaged) {
    if (table === 'sitting') await db.sitting.clear();
    else await db.table(table).delete((row as { n: number }).n);
  }
  if (open) await db.sitting.put({ slot: 'open', sitting: open.sitting });
}

interface OpenRows {
  open: OpenSitting | null;
  damaged: DamagedRow[];
  /** The sitting was made up, since its own row is gone or damaged. */
  stand: boolean;
}

async function sortOpen(db: BookDatabase): Promise<OpenRows> {
  const rows = {
    sitting: await db.sitting.toArray(),
    drills: await db.drills.toArray(),
    passes: await db.passes.toArray(),
  };
  const damaged = (['sitting', 'drills', 'passes'] as const).flatMap((table) =>
    rows[table]
      .filter((row) => !isWhole(table, row))
      .map((row): DamagedRow => ({ table, id: nameOf(row), row })),
  );
  const drills = rows.drills.map(({ drill }) => drill).filter(isDrill);
  const log = rows.passes.map(({ entry }) => entry).filter(isEntry);
  const own = rows.sitting.map(({ sitting }) => sitting).find(isSitting);
  const sitting = own ?? (drills[0] && sittingOf(drills[0].sittingId, [...drills, ...log]));
  const open = sitting ? { sitting, drills, log } : null;
  return { open, damaged, stand: open !== null && !own };
}

/** Stands in for a sitting whose own record was lost; `within`: what is left of it. */
export function sittingOf(id: string, within: readonly Moment[]): Sitting {
  const { at, offsetMin } = within.reduce<Moment>(
    (first, moment) => (moment.at < first.at ? moment : first),
    {
      at: TIME_MAX,
      offsetMin: 0,
    },
  );
  return { id, at, offsetMin, minutes: 0, tuning: null, hands: 'fresh', note: '', origin: 'own' };
}

/**
 * The open sitting as one record, closed at a time, or at the last thing written in it where that is later. Entries whose drill, and
 * corrections whose pass, was lost to damage say nothing any more and are left out (`strays`).
 */
export function sealOpen(open: OpenSitting, endedAt = 0): SealedSitting {
  const { sitting, drills, log } = open;
  const stray = new Set(strays(open));
  // a clock set back in the sitting does not end it before what was played in it
  const end = Math.max(endedAt, lastMoment(open).at);
  return { ...sitting, endedAt: end, drills, log: log.filter((entry) => !stray.has(entry)) };
}

/** What `sealOpen` leaves out, as rows to set aside. */
export function straysOf(open: OpenSitting): DamagedRow[] {
  return strays(open).map((row) => ({ table: 'passes', id: row.id, row }));
}

function strays({ drills, log }: OpenSitting): LogEntry[] {
  const known = new Set([...drills, ...log].map(({ id }) => id));
  return log.filter(
    (entry) => !known.has(entry.drillId) || (entry.kind === 'correction' && !known.has(entry.passId)),
  );
}

export function hasPass(log: readonly LogEntry[]): boolean {
  return log.some(({ kind }) => kind === 'pass');
}

/**
 * Turns the open rows into one record and removes them: the record, or `null` when nothing was played (or open). To be
 * called in a transaction over sitting, drills, passes, sittings and meta.
 */
export async function sealRows(db: BookDatabase, endedAt?: number): Promise<SealedSitting | null> {
  await healOpen(db);
  const open = await readOpen(db);
  const lost = open ? straysOf(open) : [];
  if (lost.length > 0) await keepAside(db, lost);
  await Promise.all([db.sitting.clear(), db.drills.clear(), db.passes.clear()]);
  if (!open || !hasPass(open.log)) return null;
  const sealed = sealOpen(open, endedAt);
  await keepAsideBefore(db, { sittings: [sealed.id] });
  const known = await db.sittings.get(sealed.id);
  const united = isSealed(known) ? { ...sealed, ...unite(known, sealed) } : sealed;
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
  const recent = (await db.sittings.orderBy('at').reverse().limit(LATE_SITTINGS).toArray()).filter(isSealed);
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
