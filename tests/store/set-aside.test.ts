import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { describe, expect, test, vi } from 'vitest';
import { emptyBook, sortBook } from '../../src/lib/core/book/book';
import type { BookStore } from '../../src/lib/store/book-store';
import { drill, EVENING, idOf, pass, SMALL_BOOK, START, WINTER_TUNE } from '../core/book/made-up-books';
import { copyFolder, freshName, openStore } from './made-up-store';

const { endedAt: _endedAt, drills: _drills, log: _log, ...evening } = EVENING;
const SITTING = { ...evening, id: idOf(500) };
const TORN_TUNE = { id: WINTER_TUNE.id, title: 'half a rec' };

/** What a fault of the disk may leave: a row of no sense in a table. */
async function damage(name: string, table: string, row: object): Promise<void> {
  const raw = await new Dexie(name).open();
  await raw.table(table).put(row);
  raw.close();
}

async function playSome(store: BookStore): Promise<void> {
  await store.joinSitting(SITTING, () => true);
  await store.beginDrill(drill(501, 500));
  for (const number of [510, 511, 512]) await store.record(pass(number, 501));
}

async function without<T>(part: 'the second copy', work: () => Promise<T>): Promise<T> {
  const refused = new DOMException(part, 'SecurityError');
  const missing = vi.spyOn(navigator.storage, 'getDirectory').mockRejectedValue(refused);
  try {
    return await work();
  } finally {
    missing.mockRestore();
  }
}

/** A row of every table that can be met damaged, in the place of a record. */
const TORN = {
  tunes: TORN_TUNE,
  sittings: { ...EVENING, log: 'lost' },
  settings: { key: 'minutes', value: 'many', editedAt: START },
};

describe('a damaged record', () => {
  test.each(Object.entries(TORN))(
    'of %s is set aside and listed, and the rest is read',
    async (table, row) => {
      const name = freshName();
      await without('the second copy', async () => {
        const store = await openStore(name);
        await store.mergeIn(SMALL_BOOK);
        await damage(name, table, row);
        const whole = sortBook(SMALL_BOOK);
        const kind = table as keyof typeof TORN;
        expect(await store.readBook()).toEqual({
          ...whole,
          [kind]: whole[kind].filter(
            (one) =>
              !('id' in one && one.id === (row as { id?: string }).id) &&
              !('key' in one && one.key === 'minutes'),
          ),
        });
        const { rows, said } = await store.setAside();
        expect(said).toBe(
          'A record of the book was damaged and is set aside; the rest is as it was. Settings has the list.',
        );
        expect(rows).toMatchObject([{ table, row, isBack: false }]);
        expect((await store.setAside()).said).toBeNull();
      });
    },
  );

  test.each(Object.entries(TORN))(
    'of %s comes back from the second copy, and stays listed',
    async (table, row) => {
      const name = freshName();
      const store = await openStore(name);
      await store.mergeIn(SMALL_BOOK);
      await damage(name, table, row);
      await store.readBook();
      expect(await store.setAside()).toMatchObject({
        said: expect.stringContaining('The second copy had it whole.') as string,
        rows: [{ table, row, isBack: true }],
      });
      expect(await store.readBook()).toEqual(sortBook(SMALL_BOOK));
    },
  );

  test('is kept when a backup, an edit or a choice takes its place', async () => {
    const name = freshName();
    await without('the second copy', async () => {
      const store = await openStore(name);
      for (const [table, row] of Object.entries(TORN)) await damage(name, table, row);
      await store.putTune(WINTER_TUNE);
      await store.putSetting({ key: 'minutes', value: 30, editedAt: START });
      await store.mergeIn({ ...emptyBook(), sittings: [EVENING] });
      const { rows } = await store.setAside();
      expect(rows.map(({ table, row, isBack }) => [table, row, isBack])).toEqual([
        ['settings', TORN.settings, true],
        ['sittings', TORN.sittings, true],
        ['tunes', TORN.tunes, true],
      ]);
    });
  });

  test('goes only when it is removed, and with it what stood in its place', async () => {
    const name = freshName();
    await without('the second copy', async () => {
      const store = await openStore(name);
      await store.mergeIn(SMALL_BOOK);
      await damage(name, 'tunes', { id: idOf(5), title: 'half a rec' });
      await store.tunes();
      const [found] = (await store.setAside()).rows;
      await store.removeAside(found!);
      expect((await store.setAside()).rows).toEqual([]);
      const raw = await new Dexie(name).open();
      expect(await raw.table('tunes').toCollection().primaryKeys()).toEqual([WINTER_TUNE.id]);
      raw.close();
      expect(await store.tunes()).toEqual(sortBook(SMALL_BOOK).tunes);
    });
  });

  test('of a tune is no tune to change', async () => {
    const name = freshName();
    const store = await openStore(name);
    await damage(name, 'tunes', TORN_TUNE);
    await expect(store.updateTune(WINTER_TUNE.id, (tune) => tune)).rejects.toThrow('does not hold it');
  });
});

describe('an open sitting with damage', () => {
  const TORN_ROWS = {
    sitting: { slot: 'open', sitting: 7 },
    drills: { n: 1, id: idOf(501), drill: { id: idOf(501) } },
    passes: { n: 2, id: idOf(511), entry: null },
  };

  test.each(Object.entries(TORN_ROWS))(
    'of its %s goes on, and is whole again with the second copy',
    async (table, row) => {
      const name = freshName();
      const store = await openStore(name);
      await playSome(store);
      await store.close();
      await damage(name, table, row);
      const again = await openStore(name);
      const open = await again.openSitting();
      expect(open?.sitting.id).toBe(SITTING.id);
      expect(open?.drills).toEqual([drill(501, 500)]);
      expect(open?.log.map(({ id }) => id).sort()).toEqual([510, 511, 512].map(idOf));
      expect((await again.setAside()).rows).toMatchObject([{ table, row }]);
      await again.record(pass(520, 501));
      expect((await again.seal(START + 9_000_000))?.log).toHaveLength(4);
    },
  );

  test.each(Object.entries(TORN_ROWS))(
    'of its %s and no second copy keeps all the rest',
    async (table, row) => {
      const name = freshName();
      await without('the second copy', async () => {
        const store = await openStore(name);
        await playSome(store);
        await store.close();
        await damage(name, table, row);
        const again = await openStore(name);
        const next = await again.joinSitting({ ...SITTING, id: idOf(600) }, () => true);
        expect(next.sitting.id).toBe(idOf(600));
        const kept = (await again.sittings()).flatMap(({ log }) => log.map(({ id }) => id));
        const aside = (await again.setAside()).rows.map(({ id }) => id);
        // a pass is in the book or, where its drill is lost, set aside: nowhere else
        const passes = new Set([...kept, ...aside].filter((id) => id >= idOf(510) && id <= idOf(512)));
        expect(passes.size).toBe(3);
        expect(kept).toHaveLength({ sitting: 3, drills: 0, passes: 2 }[table as keyof typeof TORN_ROWS]);
      });
    },
  );
});

test('a copy that has fallen behind still puts back what was damaged meanwhile', async () => {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  const failing = vi
    .spyOn(FileSystemFileHandle.prototype, 'createWritable')
    .mockRejectedValue(new Error('torn'));
  await store.putSetting({ key: 'minutes', value: 15, editedAt: START + 1 });
  failing.mockRestore();
  await store.close();
  await damage(name, 'tunes', TORN_TUNE);
  const again = await openStore(name);
  expect(await again.tunes()).toEqual(sortBook(SMALL_BOOK).tunes);
  expect((await again.setAside()).rows).toMatchObject([{ table: 'tunes', row: TORN_TUNE, isBack: true }]);
  await again.close();
  expect(await (await copyFolder(name)).getDirectoryHandle('tunes')).toBeDefined();
});
