import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { afterEach, vi } from 'vitest';
import { BookStore } from '../../src/lib/store/book-store';

const opened = new Map<string, BookStore[]>();
let count = 0;

/** A name that no other test uses. */
export function freshName(): string {
  count += 1;
  return `book-${Date.now()}-${count}`;
}

/** Opens a store that is closed and removed, with both its copies, after the test. */
export async function openStore(name = freshName()): Promise<BookStore> {
  const stores = opened.get(name) ?? [];
  opened.set(name, stores);
  const store = await BookStore.open(name);
  stores.push(store);
  return store;
}

/** What a killed browser can leave (PLATFORM.md): no database, the files as they were. */
export async function loseDatabase(name: string): Promise<void> {
  await Dexie.delete(name);
}

/** The folder of a book's second copy. */
export async function copyFolder(name: string): Promise<FileSystemDirectoryHandle> {
  return (await navigator.storage.getDirectory()).getDirectoryHandle(name);
}

afterEach(async () => {
  vi.restoreAllMocks();
  for (const [name, stores] of opened) {
    for (const store of stores) await store.close();
    await Dexie.delete(name);
    await (
      await navigator.storage.getDirectory()
    )
      .removeEntry(name, { recursive: true })
      .catch(() => undefined);
  }
  opened.clear();
});
