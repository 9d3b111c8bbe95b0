import { describe, expect, test, vi } from 'vitest';
import type { BookStore } from '../../src/lib/store/book-store';
import { SecondCopy } from '../../src/lib/store/second-copy';
import { copyFolder, freshName, loseDatabase, openStore } from './made-up-store';

const left = async (store: BookStore, name: string): Promise<unknown> => {
  const [only, ...more] = await store.drafts.of(name);
  expect(more).toEqual([]);
  return only?.kept ?? null;
};
const DRAFT = { writing: { beats: 2, strikes: null, labels: [] }, base: null };

describe('what is written and not saved', () => {
  test('is there for the next start, and outlives the database', async () => {
    const name = freshName();
    const store = await openStore(name);
    expect(await left(store, 'a')).toBeNull();
    await store.drafts.keep('a', { old: true });
    await store.drafts.keep('a', DRAFT);
    await store.drafts.keep('b', DRAFT);
    await store.drafts.keep('b', null);
    await store.close();
    const again = await openStore(name);
    expect(await left(again, 'a')).toEqual(DRAFT);
    await again.close();
    await loseDatabase(name);
    const restored = await openStore(name);
    expect(await left(restored, 'a')).toEqual(DRAFT);
    expect(await left(restored, 'b')).toBeNull();
  });

  test('is each window’s own, those opened later first, also after the database is lost', async () => {
    const name = freshName();
    const store = await openStore(name);
    for (const one of ['a', 'a_1', 'a_2', 'ab', 'ab_1']) await store.drafts.keep(one, { one });
    const ofA = ['a_2', 'a_1', 'a'].map((one) => ({ name: one, kept: { one } }));
    expect(await store.drafts.of('a')).toEqual(ofA);
    await store.close();
    await loseDatabase(name);
    const restored = await openStore(name);
    expect(await restored.drafts.of('a')).toEqual(ofA);
    await restored.drafts.keep('a_2', null);
    expect(await restored.drafts.of('a')).toEqual(ofA.slice(1));
  });

  test('is in no book, changes no count of it, and goes when all is erased', async () => {
    const name = freshName();
    const store = await openStore(name);
    const [book, revision] = [await store.readBook(), await store.logRevision()];
    await store.drafts.keep('a', DRAFT);
    expect(await store.readBook()).toEqual(book);
    expect(await store.logRevision()).toBe(revision);
    await store.eraseAll();
    expect(await left(store, 'a')).toBeNull();
  });

  test('is kept where the second copy fails, and is nothing where a file of it is torn', async () => {
    const name = freshName();
    const store = await openStore(name);
    vi.spyOn(SecondCopy.prototype, 'writeDraft').mockRejectedValueOnce(new Error('full'));
    await store.drafts.keep('a', DRAFT);
    expect(await left(store, 'a')).toEqual(DRAFT);
    const folder = await (await copyFolder(name)).getDirectoryHandle('drafts', { create: true });
    const writable = await (await folder.getFileHandle('torn.json', { create: true })).createWritable();
    await writable.write('{"writing":');
    await writable.close();
    expect(await left(store, 'torn')).toBeNull();
  });
});
