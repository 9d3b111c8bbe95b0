import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { readBackup, writeBackup } from '../../src/lib/core/book/backup';
import { openApp } from './harness';
import { addTune, begin, button, isUsable, markNext, readKept, SLOW, soon } from './learner';

/** The demo's practice as if it were the learner's own: more than twenty sittings, as a backup of another device. */
function ownPractice(): { name: string; mimeType: string; buffer: Buffer } {
  const reading = readBackup(readFileSync('sample-data/demo-book.json', 'utf8'));
  if (!reading.ok) throw new Error(reading.damage.join('; '));
  const { tunes, sittings, settings } = reading.book;
  const origin = 'own' as const;
  const book = {
    tunes: tunes.map((tune) => ({ ...tune, origin })),
    sittings: sittings.map((sitting) => ({ ...sitting, origin })),
    settings,
  };
  const text = writeBackup(book, reading.exportedAt);
  return { name: 'other-device.json', mimeType: 'application/json', buffer: Buffer.from(text) };
}

/** A folder that needs no picker: one of the origin's own, which the browser hands out as it does any other. */
const PICKS_OWN_FOLDER = `
  window.showDirectoryPicker = async () =>
    (await navigator.storage.getDirectory()).getDirectoryHandle('picked', { create: true });
`;

/** A share sheet that takes every file, and is left without having sent it. */
const LEAVES_THE_SHEET = `
  window.sheets = 0;
  navigator.canShare = () => true;
  navigator.share = () => {
    window.sheets += 1;
    return Promise.reject(new DOMException('left', 'AbortError'));
  };
`;

/** Notes so many sittings since the last backup, as if they had been played; every tune was written after it. */
const practiseOn = (page: Page, sittings: number): Promise<void> =>
  page.evaluate(
    (count) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('phrasewright');
        opening.onsuccess = () => {
          const change = opening.result.transaction('meta', 'readwrite');
          const value = { sittings: count, savedAt: 1, hushedAt: 0 };
          change.objectStore('meta').put({ key: 'backup', value });
          change.oncomplete = () => resolve(opening.result.close());
          change.onabort = () => reject(change.error ?? new Error('aborted'));
        };
      }),
    sittings,
  );

/** The files of that folder, unpacked. */
const readFolder = (page: Page): Promise<{ name: string; text: string }[]> =>
  page.evaluate(async () => {
    const folder = await (
      await navigator.storage.getDirectory()
    ).getDirectoryHandle('picked', { create: true });
    const found: { name: string; text: string }[] = [];
    for await (const handle of folder.values()) {
      const file = await (handle as FileSystemFileHandle).getFile();
      const bytes = file.stream().pipeThrough(new DecompressionStream('gzip'));
      found.push({ name: handle.name, text: await new Response(bytes).text() });
    }
    return found;
  });

/** How many sittings are in the one file of the folder; 0 while it is not there, or not whole. */
async function sittingsInFolder(page: Page): Promise<number> {
  const [only, ...more] = await readFolder(page).catch(() => []);
  expect(more).toEqual([]);
  const reading = only ? readBackup(only.text) : null;
  return reading?.ok ? reading.book.sittings.length : 0;
}

/** One pass of a tune, and the end of the sitting. */
async function sit(page: Page): Promise<void> {
  await begin(page);
  await markNext(page, 1);
  await button(page, 'End').click();
  await page.getByText(/came out clean/).waitFor(SLOW);
  await button(page, 'End the sitting').click();
  await page.waitForURL(/localhost:\d+\/$/, SLOW);
}

test('what is in no backup is said by how much it is, until it is backed up or hushed', async () => {
  const { page, url } = await openApp({ path: '/settings/' });
  await page.locator('input[type=file]').setInputFiles(ownPractice());
  await button(page, 'Merge them in').click();
  await page.getByText(/^New in this book: 6 tunes/).waitFor(SLOW);
  // it came from a backup, and is in that one
  await page.getByText('All of it is in the last backup.').waitFor(SLOW);
  await practiseOn(page, 23);
  const told = page.getByText('23 sittings and 6 tunes since the last backup.');
  await page.goto(url);
  await told.waitFor(SLOW);
  await button(page, 'Not now').click();
  await told.waitFor({ state: 'detached', ...SLOW });
  await page.reload();
  await isUsable(page);
  await page.locator('.plan ol li').first().waitFor(SLOW);
  expect(await told.count()).toBe(0);

  await page.goto(`${url}/settings/#backup`);
  const toldHere = page.getByText(/^23 sittings and 6 tunes since the last backup/);
  await toldHere.waitFor(SLOW);
  await page.addInitScript(LEAVES_THE_SHEET);
  await page.reload();
  await button(page, /^Send a backup/).click();
  await soon(() => page.evaluate('window.sheets')).toBe(1);
  await toldHere.waitFor(SLOW);
  await Promise.all([page.waitForEvent('download'), button(page, 'Save a backup').first().click()]);
  await page.getByText('All of it is in the last backup.').waitFor(SLOW);
});

test('a copy in a picked folder is the whole book after each sitting, and stays when it is no longer kept', async () => {
  const { page, context, url } = await openApp({ hasTouch: true });
  await context.addInitScript(PICKS_OWN_FOLDER);
  let asked = 0;
  await context.exposeFunction('askedToKeep', () => (asked += 1));
  await context.addInitScript(`
    const persist = navigator.storage.persist.bind(navigator.storage);
    navigator.storage.persist = () => (window.askedToKeep(), persist());
  `);
  await page.goto(`${url}/add/`);
  await addTune(page, { title: 'Folder Waltz', goal: 300 });
  const drill = page.url();
  await soon(() => asked).toBe(1);
  await sit(page);

  await page.goto(`${url}/settings/#backup`);
  await button(page, 'Pick a folder …').click();
  await page.getByText(/^After each sitting the book is written to picked, as phrasewright-/).waitFor(SLOW);
  await soon(() => sittingsInFolder(page)).toBe(1);

  await page.goto(drill);
  await sit(page);
  await soon(() => sittingsInFolder(page)).toBe(2);
  expect(asked).toBe(1);

  // a folder that is gone is said, and the copy is there again with the next one picked
  await page.evaluate(async () => {
    await (await navigator.storage.getDirectory()).removeEntry('picked', { recursive: true });
  });
  await page.goto(drill);
  await sit(page);
  await page.goto(`${url}/settings/#backup`);
  await page.getByText(/The folder is not there any more/).waitFor(SLOW);
  await page.getByText('1 sitting since the last backup').waitFor(SLOW);
  await button(page, 'Keep no copy there').click();
  await button(page, 'Pick a folder …').click();
  await soon(() => sittingsInFolder(page)).toBe(3);

  await page.goto(`${url}/settings/#backup`);
  await button(page, 'Keep no copy there').click();
  await button(page, 'Pick a folder …').waitFor(SLOW);
  await page.goto(drill);
  await sit(page);
  await soon(async () => (await readKept(page)).sittings.length).toBe(4);
  expect(await sittingsInFolder(page)).toBe(3);
});
