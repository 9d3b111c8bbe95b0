import { isSettingRow } from '$lib/core/book/settings';
import type { BookDatabase } from './database';
import { isDrill, isEntry, isSealed, isSitting, isTune } from './row-shapes';

/** A row that is no record any more, or that belongs to nothing any more: set aside, never fatal, never overwritten. */
export interface DamagedRow {
  table: DamagedTable;
  id: string;
  row: unknown;
}

/** One of those as the book keeps it. */
export interface AsideRow extends DamagedRow {
  /** Of its row in the meta table. */
  key: string;
  /** A whole record of this id is in the book again, from the second copy or a backup. */
  isBack: boolean;
}

export type DamagedTable = 'tunes' | 'sittings' | 'sitting' | 'drills' | 'passes' | 'settings';

const PREFIX = 'aside/';

/**
 * Copies rows to where nothing overwrites them, before something takes their place; counts those that were not there yet.
 * To be called in a transaction over meta.
 */
export async function keepAside(db: BookDatabase, rows: readonly DamagedRow[]): Promise<number> {
  let added = 0;
  for (const damaged of rows) {
    const start = `${PREFIX}${damaged.table}/${damaged.id}/`;
    const known = await db.meta.where('key').startsWith(start).toArray();
    const text = JSON.stringify(damaged.row);
    if (known.some(({ value }) => JSON.stringify((value as DamagedRow).row) === text)) continue;
    await db.meta.put({ key: `${start}${known.length}`, value: damaged });
    added += 1;
  }
  return added;
}

/** Everything set aside, and whether a whole record has come back since. To be called in a transaction over all tables. */
export async function listAside(db: BookDatabase): Promise<AsideRow[]> {
  const rows = await db.meta.where('key').startsWith(PREFIX).toArray();
  const listed: AsideRow[] = [];
  for (const { key, value } of rows) {
    const damaged = value as DamagedRow;
    listed.push({ ...damaged, key, isBack: await hasWhole(db, damaged) });
  }
  return listed;
}

/** Removes a row set aside, and the damaged row in its place where it still stands. To be called in a transaction over all tables. */
export async function dropAside(db: BookDatabase, { key, table, id }: AsideRow): Promise<void> {
  await db.meta.delete(key);
  if (table !== 'tunes' && table !== 'sittings' && table !== 'settings') return;
  const row: unknown = await db[table].get(id);
  if (row !== undefined && !isWhole(table, row)) await db[table].delete(id);
}

/** Those of the rows that are no records, as rows to set aside. */
export function damagedAmong(
  table: 'tunes' | 'sittings' | 'settings',
  rows: readonly unknown[],
): DamagedRow[] {
  return rows
    .filter((row) => row !== undefined && !isWhole(table, row))
    .map((row) => ({ table, id: nameOf(row), row }));
}

/** Sets aside what damage stands in the places of records that are to be written. To be called in a transaction over their tables and meta. */
export async function keepAsideBefore(
  db: BookDatabase,
  ids: Readonly<Partial<Record<'tunes' | 'sittings' | 'settings', readonly string[]>>>,
): Promise<void> {
  for (const table of ['tunes', 'sittings', 'settings'] as const) {
    const keys = ids[table] ?? [];
    const damaged = keys.length > 0 ? damagedAmong(table, await db[table].bulkGet([...keys])) : [];
    if (damaged.length > 0) await keepAside(db, damaged);
  }
}

async function hasWhole(db: BookDatabase, { table, id }: DamagedRow): Promise<boolean> {
  if (table === 'sitting') return false;
  if (table === 'drills' || table === 'passes') return (await db[table].where('id').equals(id).count()) > 0;
  return isWhole(table, await db[table].get(id));
}

/** Whether a row is what its table holds. */
export function isWhole(table: DamagedTable, row: unknown): boolean {
  const { sitting, drill, entry } = (row ?? {}) as Record<string, unknown>;
  if (table === 'tunes') return isTune(row);
  if (table === 'sittings') return isSealed(row);
  if (table === 'settings') return isSettingRow(row);
  if (table === 'sitting') return isSitting(sitting);
  return table === 'drills' ? isDrill(drill) : isEntry(entry);
}

/** The key that a row names itself by. */
export function nameOf(row: unknown): string {
  const { id, key, slot } = (row ?? {}) as Record<string, unknown>;
  const name = id ?? key ?? slot;
  return typeof name === 'string' ? name : '';
}
