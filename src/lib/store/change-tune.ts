import type { Id, Tune } from '$lib/core/tune/tune';
import { say } from '$lib/texts/book';
import type { BookDatabase } from './database';
import { isTune } from './row-shapes';
import { damagedTrouble } from './sentences';
import { keepAsideBefore } from './set-aside';

/** What is done to a tune's row, for a transaction of the caller's. */
export interface TuneRow {
  put(tune: Tune): Promise<Tune>;
  change(id: Id, change: (tune: Tune) => Tune): Promise<Tune>;
}

/** The tunes' rows, written only when they are tunes: a StoreTrouble names the fault. Loads the schema first, since a transaction waits for nothing else. */
export async function tuneRows(db: BookDatabase): Promise<TuneRow> {
  const { checkTune } = await import('$lib/core/book/schema');
  async function put(tune: Tune): Promise<Tune> {
    const checked = checkTune(tune);
    if (!checked.ok) throw damagedTrouble('tune', checked.damage);
    await keepAsideBefore(db, { tunes: [tune.id] });
    await db.tunes.put(tune);
    return tune;
  }
  async function change(id: Id, edit: (tune: Tune) => Tune): Promise<Tune> {
    const tune = await db.tunes.get(id);
    if (!isTune(tune)) throw damagedTrouble('tune', [say.wrong.tune]);
    return put(edit(tune));
  }
  return { put, change };
}
