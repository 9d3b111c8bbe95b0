import { describe, expect, test, vi } from 'vitest';
import { SecondCopy } from '../../src/lib/store/second-copy';
import { copyFolder, freshName, loseDatabase, openStore } from './made-up-store';

const DRAFT = { writing: { beats: 2, strikes: null, labels: [] }, base: null };

describe('what is written and not saved', () => {
  test('is there for the next start, and outlives the database', async () => {
    const name = freshName();
    const store = await openStore(name);
    expect(await store.drafts.read('a')).toBeNull();
    await store.drafts.keep('a', { old: true });
    await store.drafts.keep('a', DRAFT);
    await store.drafts.keep('b', DRAFT);
    await store.drafts.keep('b', null);
    await store.close();
    const again = await openStore(name);
    expect(await again.drafts.read('a')).toEqual(DRAFT);
    await again.close();
    await loseDatabase(name);
    const restored = await openStore(name);
    expect(await restored.drafts.read('a')).toEqual(DRAFT);
    expect(await restored.drafts.read('b')).toBeNull();
  });

  test('is in no book, changes no count of it, and goes when all is erased', async () => {
    const name = freshName();
    const store = await openStore(name);
    const [book, revision] = [await store.readBook(), await store.logRevision()];
    await store.drafts.keep('a', DRAFT);
    expect(await store.readBook()).toEqual(book);
    expect(await store.logRevision()).toBe(revision);
    await store.eraseAll();
    expect(await store.drafts.read('a')).toBeNull();
  });

  test('is kept where the second copy fails, and is nothing where a file of it is torn', async () => {
    const name = freshName();
    const store = await openStore(name);
    vi.spyOn(SecondCopy.prototype, 'writeDraft').mockRejectedValueOnce(new Error('full'));
    await store.drafts.keep('a', DRAFT);
    expect(await store.drafts.read('a')).toEqual(DRAFT);
    const folder = await (await copyFolder(name)).getDirectoryHandle('drafts', { create: true });
    const writable = await (await folder.getFileHandle('torn.json', { create: true })).createWritable();
    await writable.write('{"writing":');
    await writable.close();
    expect(await store.drafts.read('torn')).toBeNull();
  });
});
