import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { putDatabase, type OldDatabase } from '../store/old-database';
import { openApp, type OpenApp } from './harness';
import { button, isUsable, readKept, SLOW } from './learner';

const OLD = JSON.parse(readFileSync('tests/fixtures/databases/version-1.json', 'utf8')) as OldDatabase;
const TITLE = (OLD.rows['tunes'] as { title: string }[])[0]?.title ?? '';
/** A page of the app's origin that is not the app, nor a picture that the browser shows with styles of its own. */
const PLAIN_PAGE = '/icons/icon.svg';

/** Holds a connection to the book as it is, as a tab of an app of that version does; `yields`: lets go when asked to. */
async function hold(page: Page, yields: boolean): Promise<void> {
  await page.evaluate(async (letsGo) => {
    const request = indexedDB.open('phrasewright');
    await new Promise((resolve) => (request.onsuccess = resolve));
    if (letsGo) request.result.onversionchange = () => request.result.close();
    Object.assign(globalThis, { held: request.result });
  }, yields);
}

async function withOldBook({ page, url }: OpenApp): Promise<void> {
  await page.goto(url + PLAIN_PAGE);
  await page.evaluate(putDatabase, ['phrasewright', OLD] as const);
}

async function nativeVersion(page: Page): Promise<number | undefined> {
  const all = await page.evaluate(() => indexedDB.databases());
  return all.find(({ name }) => name === 'phrasewright')?.version;
}

test('a tab of an older version that will not let go is named, and once it is closed the book opens whole', async () => {
  const app = await openApp({ path: null, expectedErrors: [/favicon\.ico/] });
  await withOldBook(app);
  await hold(app.page, false);
  const second = await app.context.newPage();
  await second.goto(`${app.url}/tunes/`);
  await second.getByText('Another tab holds an older version of the book open.').waitFor(SLOW);
  await second.getByText('Close the other tabs of Phrasewright, then reload.').waitFor(SLOW);
  await app.page.close();
  await button(second, 'Try again').click();
  await second.getByText(TITLE).first().waitFor(SLOW);
  const { passes, sittings, tunes } = await readKept(second);
  expect(tunes).toEqual(OLD.rows['tunes']);
  // the sitting that was left open in March is closed by now, with its three entries
  expect(passes).toEqual([]);
  expect(sittings.map(({ log }) => log.length)).toEqual([3, 3]);
});

test('a tab of an older version that lets go is upgraded past, without a word', async () => {
  const app = await openApp({ path: null, expectedErrors: [/favicon\.ico/] });
  await withOldBook(app);
  await hold(app.page, true);
  const second = await app.context.newPage();
  await second.goto(`${app.url}/tunes/`);
  await second.getByText(TITLE).first().waitFor(SLOW);
  expect(await second.getByRole('alert').count()).toBe(0);
  expect(await nativeVersion(second)).toBeGreaterThan(OLD.nativeVersion);
});

test('an app that meets a newer book stops in plain words, in an open tab as at a start, and does not touch it', async () => {
  const { page, context, url } = await openApp({ path: '/tunes/' });
  await isUsable(page);
  const newer = await context.newPage();
  await newer.goto(url + PLAIN_PAGE);
  await newer.evaluate(async () => {
    const request = indexedDB.open('phrasewright', 990);
    await new Promise((resolve, reject) => {
      request.onupgradeneeded = () => request.result.createObjectStore('years', { keyPath: 'year' });
      request.onsuccess = resolve;
      request.onerror = reject;
    });
    request.result.transaction('years', 'readwrite').objectStore('years').put({ year: 2040 });
    request.result.close();
  });
  await page.getByText('A newer version of Phrasewright has opened the book in another tab.').waitFor(SLOW);
  await page.reload();
  await page.getByText('This book was last opened by a newer version of Phrasewright.').waitFor(SLOW);
  await page.getByText('The book was not touched.').waitFor(SLOW);
  expect(await nativeVersion(newer)).toBe(990);
  const years = await newer.evaluate(async () => {
    const request = indexedDB.open('phrasewright');
    await new Promise((resolve) => (request.onsuccess = resolve));
    const all = request.result.transaction('years').objectStore('years').getAll();
    await new Promise((resolve) => (all.onsuccess = resolve));
    request.result.close();
    return all.result as unknown;
  });
  expect(years).toEqual([{ year: 2040 }]);
});
