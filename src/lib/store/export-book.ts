import { BackupWriter } from '$lib/core/book/backup-writer';
import { countPasses, sortWithin, type Book, type BookCounts, type BookLook } from '$lib/core/book/book';
import type { RecordKind } from '$lib/core/book/book-checksum';
import { LogCsv } from '$lib/core/book/log-csv';
import { recordFaults } from '$lib/core/book/schema';
import type { SealedSitting } from '$lib/core/practice/records';
import type { Moment } from '$lib/core/time/moment';
import type { BookDatabase } from './database';
import { hasPass, readOpen, sealOpen } from './open-sitting';
import { isSealed, isTune } from './row-shapes';
import { inPlainWords } from './trouble';

/** Sittings whose text is held at a time, and of one transaction: a long one would hold up whoever wants to write. */
const PIECE = 20;

/** Called now and then with the number of sittings done and that of all; throws to make an end. */
export type OnSittings = (done: number, all: number) => void;

/**
 * What `make` makes of every sitting in the order of its id, the open one as if sealed, some at a time. Which sittings there are
 * is read once, together with the open one, so that a sitting which is sealed meanwhile comes exactly once. Rows that are none
 * go to `onDamaged`.
 *
 * Each row is let go before the next: what a request has read stays in memory until the browser looks for garbage everywhere,
 * which for a long log comes to some sixty megabytes more than by a cursor.
 */
export async function* eachSitting<T>(
  db: BookDatabase,
  make: (sitting: SealedSitting) => T,
  onSittings: OnSittings,
  onDamaged: (row: unknown) => void = () => undefined,
): AsyncGenerator<T[]> {
  const { ids, open } = await inPlainWords(() =>
    db.transaction('r', [db.sitting, db.drills, db.passes, db.sittings], async () => {
      const keys = await db.sittings.toCollection().primaryKeys();
      const found = await readOpen(db);
      return { ids: keys, open: found && hasPass(found.log) ? sealOpen(found) : null };
    }),
  );
  let left = open;
  for (let from = 0; from < ids.length; from += PIECE) {
    onSittings(from, ids.length);
    const made: T[] = [];
    const take = (row: unknown): void => {
      if (!isSealed(row)) return onDamaged(row);
      if (left && left.id < row.id) {
        made.push(make(left));
        left = null;
      }
      made.push(make(row));
    };
    await inPlainWords(() =>
      db.sittings
        .where(':id')
        .anyOf(ids.slice(from, from + PIECE))
        .each(take),
    );
    yield made;
  }
  if (left) yield [make(left)];
  onSittings(ids.length, ids.length);
}

/** What became of an export: what is in it, and what was left out because it is no record any more, in sentences. */
export interface Exported {
  counts: BookCounts;
  leftOut: string[];
}

/** The text of a backup of the whole book, some sittings at a time. A record that could not be read back is left out. */
export async function* exportText(
  db: BookDatabase,
  now: Moment,
  onSittings: OnSittings,
): AsyncGenerator<string, Exported> {
  const writer = new BackupWriter(now);
  const leftOut: string[] = [];
  const sound = <Kind extends RecordKind>(kind: Kind, rows: readonly unknown[]): Book[Kind] =>
    rows.filter((row, index) => {
      const [fault] = recordFaults(kind, row, index);
      if (fault !== undefined) leftOut.push(fault);
      return fault === undefined;
    }) as Book[Kind];
  const settings = await inPlainWords(() => db.settings.toArray());
  yield writer.add('settings', sound('settings', settings));
  const write = (sitting: SealedSitting): string => writer.add('sittings', sound('sittings', [sitting]));
  const leaveOut = (row: unknown): void => void sound('sittings', [row]);
  for await (const texts of eachSitting(db, write, onSittings, leaveOut)) yield texts.join('');
  const tunes = await inPlainWords(() => db.tunes.toArray());
  yield writer.add('tunes', sound('tunes', tunes).map(sortWithin));
  yield writer.finish();
  return { counts: writer.counts, leftOut };
}

/** A look at every record of the log. */
export async function lookThrough(db: BookDatabase, onSittings: OnSittings): Promise<BookLook> {
  const [tunes, settings] = await inPlainWords(() => Promise.all([db.tunes.count(), db.settings.count()]));
  const counts: BookCounts = { tunes, settings, sittings: 0, drills: 0, passes: 0 };
  const damaged: string[] = [];
  const count = ({ drills, log }: SealedSitting): void => {
    counts.sittings += 1;
    counts.drills += drills.length;
    counts.passes += countPasses(log);
  };
  const name = (row: unknown): void => void damaged.push((row as { id: string }).id);
  for await (const _ of eachSitting(db, count, onSittings, name));
  return { counts, damaged };
}

/** UTF-8's mark, by which spreadsheets know that a file of values is not in the alphabet of the machine. */
const BYTE_ORDER_MARK = '\uFEFF';

/** The log of passes as comma-separated values (see `LogCsv`), some sittings at a time. */
export async function* logText(db: BookDatabase, onSittings: OnSittings): AsyncGenerator<string, null> {
  const tunes = await inPlainWords(() => db.tunes.toArray());
  const log = new LogCsv(tunes.filter(isTune));
  yield BYTE_ORDER_MARK + log.header();
  const lines = (sitting: SealedSitting): string => log.lines(sitting);
  for await (const texts of eachSitting(db, lines, onSittings)) yield texts.join('');
  return null;
}
