import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import { button, isUsable, readPlan, SLOW, soon } from './learner';

interface Kept {
  log: number | null;
  fold: { revision: number; parts: number; print: string } | null;
}

/** What the device keeps of the fold; with `print`, after that is written over the kept one's. */
function keptFold(page: Page, print: string | null = null): Promise<Kept> {
  return page.evaluate(async (newPrint) => {
    const settled = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => {
          resolve(request.result);
        };
        request.onerror = () => {
          reject(request.error ?? new Error('IndexedDB failed'));
        };
      });
    interface Head {
      revision: number;
      parts: number;
      head: { print: string };
    }
    const db = await settled(indexedDB.open('phrasewright'));
    const meta = db.transaction('meta', 'readwrite').objectStore('meta');
    const log = (await settled(meta.get('log'))) as { value: number } | undefined;
    const fold = (await settled(meta.get('fold'))) as { key: string; value: Head } | undefined;
    if (fold && newPrint !== null) {
      fold.value.head.print = newPrint;
      await settled(meta.put(fold));
    }
    db.close();
    const head = fold?.value;
    return {
      log: log?.value ?? null,
      fold: head ? { revision: head.revision, parts: head.parts, print: head.head.print } : null,
    };
  }, print);
}

async function tunesShown(page: Page): Promise<string> {
  await page.getByRole('link', { name: 'Tunes' }).click();
  await page.getByText('Cold Frosty Morning').waitFor(SLOW);
  await soon(() => page.locator('main').innerText()).toMatch(/settled/);
  return page.locator('main').innerText();
}

test('a start goes on from the fold that was kept, and reads the log again when that is not to be believed', async () => {
  const { page } = await openApp();
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  await soon(async () => (await keptFold(page)).fold?.parts ?? 0).toBeGreaterThan(2);
  const first = await keptFold(page);
  expect(first.fold?.revision).toBe(first.log);
  const shown = await tunesShown(page);

  await page.reload();
  await isUsable(page);
  expect(await tunesShown(page)).toBe(shown);
  expect(await keptFold(page)).toEqual(first);

  await keptFold(page, 'of another program');
  await page.reload();
  await isUsable(page);
  expect(await tunesShown(page)).toBe(shown);
  await soon(() => keptFold(page)).toEqual(first);
});
