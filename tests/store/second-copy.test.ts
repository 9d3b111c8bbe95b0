import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { describe, expect, test, vi } from 'vitest';
import { emptyBook, sortBook } from '../../src/lib/core/book/book';
import type { BookStore } from '../../src/lib/store/book-store';
import { drill, EVENING, idOf, pass, SMALL_BOOK, START, WINTER_TUNE } from '../core/book/made-up-books';
import { copyFolder, freshName, loseDatabase, openStore } from './made-up-store';

const { endedAt: _endedAt, drills: _drills, log: _log, ...evening } = EVENING;
const SITTING = { ...evening, id: idOf(500) };

async function playSome(store: BookStore, passes: number): Promise<void> {
  await store.joinSitting(SITTING, () => true);
  await store.beginDrill(drill(501, 500));
  for (let index = 0; index < passes; index += 1) await store.record(pass(510 + index, 501));
}

describe('a lost database', () => {
  test('comes back with every acknowledged pass, and the store says so', async () => {
    const name = freshName();
    const store = await openStore(name);
    await store.mergeIn(SMALL_BOOK);
    await store.putTune({ ...WINTER_TUNE, title: 'Later Supper', editedAt: START + 5 });
    await store.putSetting({ key: 'minutes', value: 55, editedAt: START + 5 });
    await playSome(store, 7);
    await store.updateSitting(SITTING.id, () => ({ note: 'before the crash' }));
    const before = await store.readBook();
    await store.close();
    await loseDatabase(name);

    const again = await openStore(name);
    expect(again.recovered).toBe(
      'The browser had lost part of the book. Its second copy put back 1 tune, 1 sitting and 9 passes.',
    );
    expect(await again.readBook()).toEqual(before);
    expect((await again.openSitting())?.sitting.note).toBe('before the crash');
    await again.record(pass(530, 501));
    expect((await again.seal(START + 9_000_000))?.log).toHaveLength(8);
    await again.close();
    expect((await openStore(name)).recovered).toBeNull();
  });

  test('comes back after sealing, with erased and removed records still gone', async () => {
    const name = freshName();
    const store = await openStore(name);
    await store.mergeIn({ ...emptyBook(), tunes: [WINTER_TUNE] });
    await store.eraseAll();
    const demoTune = { ...WINTER_TUNE, id: idOf(3), origin: 'demo' as const };
    const demoSitting = { ...EVENING, origin: 'demo' as const };
    await store.mergeIn({ ...emptyBook(), tunes: [demoTune], sittings: [demoSitting] });
    await playSome(store, 2);
    const sealed = await store.seal(START + 9_000_000);
    await store.removeDemo();
    await store.close();
    await loseDatabase(name);

    const again = await openStore(name);
    expect(await again.readBook()).toEqual({ ...emptyBook(), sittings: [sealed] });
    expect(again.recovered).toMatch(/put back 1 sitting and 2 passes\.$/);
  });

  test('comes back without the line that was being written, and without a torn file', async () => {
    const name = freshName();
    const store = await openStore(name);
    await store.mergeIn(SMALL_BOOK);
    await playSome(store, 3);
    await store.close();
    await loseDatabase(name);
    const folder = await copyFolder(name);
    const journal = await (await folder.getDirectoryHandle('open')).getDirectoryHandle(SITTING.id);
    await write(journal, `entry-${idOf(999)}.json`, JSON.stringify(pass(999, 501)).slice(0, -9));
    await journal.getFileHandle(`entry-${idOf(998)}.json`, { create: true });
    const sittings = await folder.getDirectoryHandle('sittings');
    const month = await (await (await sittings.getFileHandle('2026-03.jsonl')).getFile()).text();
    await write(sittings, '2026-03.jsonl', `${month}{"id":"${idOf(997)}","at":17`);

    const again = await openStore(name);
    expect((await again.openSitting())?.log).toEqual([510, 511, 512].map((number) => pass(number, 501)));
    expect(await again.sittings()).toEqual(sortBook(SMALL_BOOK).sittings);
    expect(again.secondCopy).toEqual({ isKept: true });
  });

  test('a lost second copy is written anew', async () => {
    const name = freshName();
    const store = await openStore(name);
    await store.mergeIn(SMALL_BOOK);
    await playSome(store, 2);
    const before = await store.readBook();
    await store.close();
    await (await navigator.storage.getDirectory()).removeEntry(name, { recursive: true });
    const second = await openStore(name);
    expect(second.recovered).toBeNull();
    await second.close();
    await loseDatabase(name);
    expect(await (await openStore(name)).readBook()).toEqual(before);
  });

  test('a change that reached the database only is in both after the next start', async () => {
    const name = freshName();
    const store = await openStore(name);
    const failing = vi
      .spyOn(FileSystemFileHandle.prototype, 'createWritable')
      .mockRejectedValue(new Error('torn'));
    await store.putTune(WINTER_TUNE);
    failing.mockRestore();
    expect(store.secondCopy).toMatchObject({ isKept: false });
    await store.putSetting({ key: 'minutes', value: 15, editedAt: START });
    await store.close();
    const second = await openStore(name);
    expect(second.secondCopy).toEqual({ isKept: true });
    const before = await second.readBook();
    await second.close();
    await loseDatabase(name);
    expect(await (await openStore(name)).readBook()).toEqual(before);
  });

  test('a journal that outlived its sitting adds what the sealed record lacks', async () => {
    const name = freshName();
    const store = await openStore(name);
    await playSome(store, 2);
    await store.seal(START + 9_000_000);
    await store.close();
    const folder = await (await copyFolder(name)).getDirectoryHandle('open');
    const journal = await folder.getDirectoryHandle(SITTING.id, { create: true });
    await write(journal, `drill-${idOf(501)}.json`, JSON.stringify(drill(501, 500)));
    await write(journal, `entry-${idOf(540)}.json`, JSON.stringify(pass(540, 501)));
    const again = await openStore(name);
    expect(again.recovered).toMatch(/put back 1 pass\.$/);
    expect((await again.sittings())[0]?.log).toHaveLength(3);
    expect(await again.openSitting()).toBeNull();
    const names: string[] = [];
    for await (const name of folder.keys()) names.push(name);
    expect(names).toEqual([]);
  });
});

test('erasing empties a second copy that had failed, also where there is no room for a word of it', async () => {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  const failing = vi
    .spyOn(FileSystemFileHandle.prototype, 'createWritable')
    .mockRejectedValue(new DOMException('full', 'QuotaExceededError'));
  await store.putSetting({ key: 'minutes', value: 15, editedAt: START });
  expect(store.secondCopy).toMatchObject({ isKept: false });
  const erasing = store.eraseAll().catch((error: unknown) => error);
  await vi.waitFor(async () => {
    const folder = await copyFolder(name);
    const names: string[] = [];
    for await (const one of folder.keys()) names.push(one);
    expect(names.filter((one) => one !== 'marker.json')).toEqual([]);
  });
  failing.mockRestore();
  await erasing;
  await store.close();
  const again = await openStore(name);
  expect(again.recovered).toBeNull();
  expect(await again.readBook()).toEqual(emptyBook());
});

test('erasing that was interrupted is finished at the next start', async () => {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  await store.close();
  const folder = await copyFolder(name);
  const marker = JSON.parse(
    await (await (await folder.getFileHandle('marker.json')).getFile()).text(),
  ) as object;
  await write(folder, 'marker.json', JSON.stringify({ ...marker, isErasing: true }));
  const again = await openStore(name);
  expect(await again.readBook()).toEqual(emptyBook());
  expect(again.recovered).toBeNull();
  await again.close();
  await loseDatabase(name);
  expect(await (await openStore(name)).readBook()).toEqual(emptyBook());
});

test('where there are no such files, the store goes on alone and says so', async () => {
  const missing = vi
    .spyOn(navigator.storage, 'getDirectory')
    .mockRejectedValue(new DOMException('', 'SecurityError'));
  const name = freshName();
  const store = await openStore(name);
  missing.mockRestore();
  expect(store.secondCopy).toMatchObject({ isKept: false });
  await store.mergeIn(SMALL_BOOK);
  await playSome(store, 1);
  expect((await store.readBook()).sittings).toHaveLength(2);
  expect((await Dexie.getDatabaseNames()).includes(name)).toBe(true);
});

async function write(folder: FileSystemDirectoryHandle, name: string, text: string): Promise<void> {
  const writable = await (await folder.getFileHandle(name, { create: true })).createWritable();
  await writable.write(text);
  await writable.close();
}

/** Every file of a folder and those below it, with its text. */
async function textsIn(folder: FileSystemDirectoryHandle, path = ''): Promise<[string, string][]> {
  const found: [string, string][] = [];
  for await (const [name, handle] of folder.entries()) {
    const at = `${path}/${name}`;
    if (handle.kind === 'directory') found.push(...(await textsIn(handle as FileSystemDirectoryHandle, at)));
    else found.push([at, await (await (handle as FileSystemFileHandle).getFile()).text()]);
  }
  return found.sort();
}

test('what a newer app wrote beside a lost database is left alone by an older one, to the byte', async () => {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  await playSome(store, 2);
  await store.close();
  await loseDatabase(name);
  const folder = await copyFolder(name);
  const marker = await (await folder.getFileHandle('marker.json')).createWritable();
  await marker.write(
    JSON.stringify({ bookId: 'of-later-years', revision: 900, isErasing: false, version: 99 }),
  );
  await marker.close();
  const before = await textsIn(folder);
  await expect(openStore(name)).rejects.toMatchObject({ kind: 'newer' });
  await expect(openStore(name)).rejects.toMatchObject({ kind: 'newer' });
  expect(await textsIn(folder)).toEqual(before);
});

test('what is kept beside the records may be damaged, and the book is whole', async () => {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  await playSome(store, 2);
  const before = await store.readBook();
  await store.close();
  const raw = await new Dexie(name).open();
  for (const key of ['stamp', 'backup', 'fold', 'log', 'backup folder', 'draft/some'])
    await raw.table('meta').put({ key, value: 'torn' });
  raw.close();
  const again = await openStore(name);
  expect(await again.readBook()).toEqual(before);
  expect(await again.backups.read()).toEqual({ sittings: 1, savedAt: null, hushedAt: 0 });
  await again.putTune({ ...WINTER_TUNE, title: 'After All' });
  await again.seal(START + 9_000_000);
  expect((await again.backups.read()).sittings).toBe(2);
  await again.close();
  expect((await openStore(name)).recovered).toBeNull();
});
