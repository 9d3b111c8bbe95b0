import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { describe, expect, test, vi } from 'vitest';
import { readBackup, writeBackup } from '../../src/lib/core/book/backup';
import { emptyBook, sortBook, type Book } from '../../src/lib/core/book/book';
import { mergeSittings } from '../../src/lib/core/book/merge';
import { settingRow } from '../../src/lib/core/book/settings';
import type { Sitting } from '../../src/lib/core/practice/records';
import { BookStore, StoreTrouble } from '../../src/lib/store/book-store';
import { drill, EVENING, idOf, pass, SMALL_BOOK, START, WINTER_TUNE } from '../core/book/made-up-books';
import { freshName, openStore } from './made-up-store';

const { endedAt: _endedAt, drills: _drills, log: _log, ...SITTING } = EVENING;
const trouble = (error: unknown): StoreTrouble => {
  expect(error).toBeInstanceOf(StoreTrouble);
  return error as StoreTrouble;
};

/** An open sitting with three passes. */
async function begin(store: BookStore, sitting: Sitting = SITTING): Promise<void> {
  await store.joinSitting(sitting, () => true);
  await store.beginDrill({ ...drill(101, 100), sittingId: sitting.id });
  for (const number of [110, 111, 113]) await store.record(pass(number, 101));
}

describe('records', () => {
  test('a tune and a setting come back as they went in', async () => {
    const store = await openStore();
    await store.putTune(WINTER_TUNE);
    await store.putSetting({ key: 'minutes', value: 35, editedAt: START });
    expect(await store.tunes()).toEqual([WINTER_TUNE]);
    expect(await store.settings()).toEqual([settingRow('minutes', 35, START)]);
  });

  test('what is no record is refused with its fault, and nothing is written', async () => {
    const store = await openStore();
    const refused = trouble(
      await store.putTune({ ...WINTER_TUNE, goalTempo: 9000 }).catch((e: unknown) => e),
    );
    expect(refused.message).toBe('The tune was not saved: goal tempo: 9000 is outside 20 to 300.');
    expect(refused.kind).toBe('damaged');
    await expect(store.putSetting({ key: 'minutes', value: 9000, editedAt: START })).rejects.toThrow(
      StoreTrouble,
    );
    expect(await store.readBook()).toEqual(emptyBook());
  });

  test('two tabs that change one tune at once both keep their change; a bad change is refused', async () => {
    const name = freshName();
    const [here, there] = [await openStore(name), await openStore(name)];
    await here.putTune(WINTER_TUNE);
    await Promise.all([
      here.updateTune(WINTER_TUNE.id, (tune) => ({ ...tune, title: 'Late Supper' })),
      there.updateTune(WINTER_TUNE.id, (tune) => ({ ...tune, goalTempo: 90 })),
    ]);
    expect(await here.tunes()).toEqual([{ ...WINTER_TUNE, title: 'Late Supper', goalTempo: 90 }]);
    const bad = here.updateTune(WINTER_TUNE.id, (tune) => ({ ...tune, goalTempo: 9000 }));
    await expect(bad).rejects.toThrow('The tune was not saved: goal tempo: 9000 is outside 20 to 300.');
    await expect(here.updateTune(idOf(9), (tune) => tune)).rejects.toThrow('the book does not hold it');
    expect((await here.tunes())[0]?.goalTempo).toBe(90);
  });
});

describe('the open sitting', () => {
  test('keeps a pass that was marked under a clock that was never set', async () => {
    const store = await openStore();
    await begin(store);
    const early = { ...pass(120, 101), at: 5 };
    await store.record(early);
    expect((await store.openSitting())?.log.at(-1)).toEqual(early);
  });

  test('is there after closing in the middle, in the order of writing', async () => {
    const name = freshName();
    const store = await openStore(name);
    await begin(store);
    await store.record(pass(109, 101));
    await store.updateSitting(SITTING.id, () => ({ note: 'cold hands' }));
    await store.close();
    const again = await openStore(name);
    const open = await again.openSitting();
    expect(open?.sitting).toEqual({ ...SITTING, note: 'cold hands' });
    expect(open?.drills).toEqual([drill(101, 100)]);
    // the id of the last one is the lowest, as after a clock that was set back
    expect(open?.log).toEqual([110, 111, 113, 109].map((number) => pass(number, 101)));
    expect(again.recovered).toBeNull();
  });

  test('becomes one record, and its rows go, in one step', async () => {
    const store = await openStore();
    await begin(store);
    const sealed = await store.seal(EVENING.endedAt);
    const log = [110, 111, 113].map((number) => pass(number, 101));
    expect(sealed).toEqual({ ...EVENING, log });
    expect(await store.sittings()).toEqual([sealed]);
    expect(await store.openSitting()).toBeNull();
    expect(await store.seal(EVENING.endedAt)).toBeNull();
  });

  test('keeps a note that was changed after it was closed, whichever copy it is merged with', async () => {
    const store = await openStore();
    await begin(store);
    await store.updateSitting(SITTING.id, () => ({ note: 'thumb' }));
    const before = await store.seal(EVENING.endedAt);
    await store.updateSitting(SITTING.id, () => ({ note: 'a slower thumb' }));
    const [after] = await store.sittings();
    if (!before || !after) throw new Error('The sitting is not there');
    expect(after.note).toBe('a slower thumb');
    expect(mergeSittings(before, after)).toEqual(after);
    expect(mergeSittings(after, before)).toEqual(after);
  });

  test('stays whole when sealing fails half-way', async () => {
    const name = freshName();
    const store = await openStore(name);
    await begin(store);
    const failing = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementationOnce(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    const refused = trouble(await store.seal(EVENING.endedAt).catch((e: unknown) => e));
    failing.mockRestore();
    expect(refused.kind).toBe('full');
    expect(await store.sittings()).toEqual([]);
    expect((await store.openSitting())?.log).toHaveLength(3);
    expect(await store.seal(EVENING.endedAt)).toMatchObject({ id: SITTING.id });
  });

  test('without a pass leaves nothing', async () => {
    const store = await openStore();
    await store.joinSitting(SITTING, () => true);
    await store.beginDrill(drill(101, 100));
    expect(await store.seal(EVENING.endedAt)).toBeNull();
    expect(await store.readBook()).toEqual(emptyBook());
  });

  test('is sealed by the beginning of another', async () => {
    const store = await openStore();
    await begin(store);
    await store.joinSitting({ ...SITTING, id: idOf(200) }, () => true);
    expect((await store.openSitting())?.sitting.id).toBe(idOf(200));
    expect((await store.sittings()).map(({ id, log }) => [id, log.length])).toEqual([[SITTING.id, 3]]);
  });

  test('that another tab began is joined, not ended, by a tab that has not heard of it', async () => {
    const name = freshName();
    const [here, there] = [await openStore(name), await openStore(name)];
    await begin(here);
    const joined = await there.joinSitting({ ...SITTING, id: idOf(200) }, () => false);
    expect([joined.sitting.id, joined.log.length]).toEqual([SITTING.id, 3]);
    const both = await Promise.all(
      [here, there].map((tab, index) => tab.joinSitting({ ...SITTING, id: idOf(201 + index) }, () => false)),
    );
    expect(both.map(({ sitting }) => sitting.id)).toEqual([SITTING.id, SITTING.id]);
    expect(await there.sittings()).toEqual([]);
  });

  test('takes the same entry twice as one, and refuses what is none', async () => {
    const store = await openStore();
    await begin(store);
    await store.record(pass(110, 101));
    expect((await store.openSitting())?.log).toHaveLength(3);
    await expect(store.record({ ...pass(120, 101), at: Number.NaN })).rejects.toThrow(StoreTrouble);
    await expect(store.record(pass(120, 999))).rejects.toThrow(StoreTrouble);
    const correction = {
      kind: 'correction' as const,
      id: idOf(121),
      drillId: idOf(101),
      outcome: 'clean' as const,
    };
    const stray = { ...correction, passId: idOf(999), at: START, offsetMin: 0 };
    await expect(store.record(stray)).rejects.toThrow(StoreTrouble);
    await store.record({ ...stray, passId: idOf(110) });
    expect((await store.openSitting())?.log).toHaveLength(4);
  });

  test('a pass marked in one tab after another tab closed the sitting goes into the sealed one', async () => {
    const name = freshName();
    const [here, there] = [await openStore(name), await openStore(name)];
    await begin(here);
    await there.seal(EVENING.endedAt);
    await here.record(pass(120, 101));
    expect((await there.sittings())[0]?.log.map(({ id }) => id)).toContain(idOf(120));
    expect(await here.openSitting()).toBeNull();
  });

  test('two tabs mark at once, and every mark stays', async () => {
    const name = freshName();
    const tabs = [await openStore(name), await openStore(name)];
    await begin(tabs[0]!);
    const numbers = Array.from({ length: 40 }, (_, index) => 200 + index);
    await Promise.all(numbers.map((number) => tabs[number % 2]!.record(pass(number, 101))));
    expect((await tabs[1]!.openSitting())?.log).toHaveLength(43);
  });
});

describe('the whole book', () => {
  test('is exported, wiped, and read back record by record, the open sitting as if sealed', async () => {
    const store = await openStore();
    await store.mergeIn(SMALL_BOOK);
    await begin(store, { ...SITTING, id: idOf(300) });
    const before = await store.readBook();
    const text = writeBackup(before, { at: START, offsetMin: 0 });
    await store.eraseAll();
    expect(await store.readBook()).toEqual(emptyBook());
    const reading = readBackup(text);
    expect(await store.mergeIn((reading as { book: Book }).book)).toEqual({
      tunes: 1,
      sittings: 2,
      passes: 5,
    });
    expect(await store.readBook()).toEqual(sortBook(before));
    expect(before.sittings.map(({ id }) => id)).toEqual([EVENING.id, idOf(300)]);
  });

  test('takes the same book twice as once', async () => {
    const store = await openStore();
    expect(await store.mergeIn(SMALL_BOOK)).toEqual({ tunes: 1, sittings: 1, passes: 2 });
    expect(await store.mergeIn(SMALL_BOOK)).toEqual({ tunes: 0, sittings: 0, passes: 0 });
    expect(await store.readBook()).toEqual(sortBook(SMALL_BOOK));
  });

  test('one bad record, and nothing of a book is taken in', async () => {
    const store = await openStore();
    await store.mergeIn(SMALL_BOOK);
    const longer = { ...EVENING, log: [...EVENING.log, pass(150, 101)] };
    const bad = { ...SMALL_BOOK, sittings: [longer], tunes: [{ ...WINTER_TUNE, id: idOf(2), capo: 40 }] };
    const refused = trouble(await store.mergeIn(bad).catch((e: unknown) => e));
    expect(refused.message).toBe(
      'The book was not taken in: tunes, 1st record, capo: 40 is outside 0 to 12.',
    );
    expect(await store.readBook()).toEqual(sortBook(SMALL_BOOK));
  });

  test('a write that fails in the middle leaves nothing of a book', async () => {
    const store = await openStore();
    const failing = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function fail(
      this: IDBObjectStore,
    ) {
      throw new DOMException(`no room in ${this.name}`, 'QuotaExceededError');
    });
    await expect(store.mergeIn(SMALL_BOOK)).rejects.toMatchObject({ kind: 'full' });
    failing.mockRestore();
    expect(await store.readBook()).toEqual(emptyBook());
  });

  test('a copy of the sitting that is open goes into the open one', async () => {
    const store = await openStore();
    await begin(store);
    const exported = await store.readBook();
    const [open] = exported.sittings;
    const elsewhere = { ...open!, log: [...open!.log, pass(140, 101)] };
    expect(await store.mergeIn({ ...emptyBook(), sittings: [elsewhere] })).toEqual({
      ...{ tunes: 0, sittings: 0, passes: 1 },
    });
    expect(await store.sittings()).toEqual([]);
    expect((await store.openSitting())?.log).toHaveLength(4);
  });

  test('loses the demo by one touch, and keeps the rest', async () => {
    const store = await openStore();
    const demo: Book = {
      tunes: [{ ...WINTER_TUNE, id: idOf(3), origin: 'demo' }],
      sittings: [
        { ...EVENING, id: idOf(400), origin: 'demo', drills: [drill(401, 400)], log: [pass(402, 401)] },
      ],
      settings: [],
    };
    await store.mergeIn(SMALL_BOOK);
    await store.mergeIn(demo);
    await store.removeDemo();
    expect(await store.readBook()).toEqual(sortBook(SMALL_BOOK));
  });
});

describe('other tabs', () => {
  test('hear of every change, with the tables that changed', async () => {
    const name = freshName();
    const [here, there] = [await openStore(name), await openStore(name)];
    const heard: string[] = [];
    const stop = there.onChange((tables) => heard.push(...tables));
    await here.putTune(WINTER_TUNE);
    await vi.waitFor(() => expect(heard).toEqual(['tunes']));
    stop();
    await here.putSetting({ key: 'minutes', value: 20, editedAt: START });
    expect(heard).toEqual(['tunes']);
  });

  test('hear of everything when the browser brings a page back that it had put by', async () => {
    const store = await openStore();
    const heard = vi.fn();
    const stop = store.onChange((tables) => heard([...tables].sort()));
    dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true }));
    stop();
    expect(heard).toHaveBeenCalledWith(['drills', 'passes', 'settings', 'sitting', 'sittings', 'tunes']);
  });

  test('let go when the book is upgraded elsewhere, and say so', async () => {
    const name = freshName();
    const store = await openStore(name);
    const superseded = vi.fn();
    store.onSuperseded(superseded);
    const newer = new Dexie(name);
    newer.version(99).stores({ tunes: 'id' });
    await newer.open();
    newer.close();
    expect(superseded).toHaveBeenCalledOnce();
    expect(trouble(await store.putTune(WINTER_TUNE).catch((e: unknown) => e)).kind).toBe('blocked');
  });

  test('an older app leaves a newer book alone', async () => {
    const name = freshName();
    const newer = new Dexie(name);
    newer.version(99).stores({ tunes: 'id', songs: 'id' });
    await newer.open();
    await newer.table('songs').put({ id: 'a' });
    newer.close();
    expect(trouble(await BookStore.open(name).catch((e: unknown) => e)).kind).toBe('newer');
    const after = await new Dexie(name).open();
    expect([after.verno, after.tables.map((table) => table.name)]).toEqual([99, ['songs', 'tunes']]);
    after.close();
    await Dexie.delete(name);
  });
});
