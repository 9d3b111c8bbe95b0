import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import {
  addTune,
  begin,
  button,
  chooseBackup,
  type KeptBook,
  markNext,
  readKept,
  SLOW,
  soon,
} from './learner';

async function save(page: Page): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download', SLOW),
    button(page, 'Save a backup').first().click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^phrasewright-\d{4}-\d\d-\d\d\.json\.gz$/);
  return gunzipSync(readFileSync(await download.path())).toString('utf8');
}

const size = ({ tunes, sittings, settings }: KeptBook) => [tunes.length, sittings.length, settings.length];

test('a backup brings back every record as it was, and a damaged one changes nothing', async () => {
  const { page, url } = await openApp({ hasTouch: true });
  await button(page, 'Try it with the demo tunes').click();
  await page.locator('.plan ol li').first().waitFor(SLOW);
  await page.getByLabel('I have').selectOption('45');
  await page.goto(`${url}/add/`);
  await addTune(page, {
    title: 'Own “Tune” · ♯1',
    tuning: 'gDGCD',
    goal: 300,
    shared: [['B8', 'A8']],
  });
  await begin(page);
  await markNext(page, 1);
  while ((await readKept(page)).passes.length < 3) await markNext(page, 2);
  await button(page, 'End').click();
  await page.getByLabel(/A line of notes/).fill('Ünïcode, "quotes"\nand a second line');
  await button(page, 'End the sitting').click();
  await page.waitForURL(`${url}/`, SLOW);
  await soon(async () => (await readKept(page)).passes.length).toBe(0);
  const before = await readKept(page);

  await page.getByRole('link', { name: 'Settings' }).click();
  const text = await save(page);
  await button(page, /^Erase everything/).click();
  await button(page, 'Erase it all').click();
  await soon(async () => size(await readKept(page))).toEqual([0, 0, 0]);

  const damaged = text.replace('"outcome":"clean"', '"outcome":"stumbled"');
  expect(damaged).not.toBe(text);
  await chooseBackup(page, 'damaged.json', damaged);
  await soon(() => page.getByRole('alert').innerText()).toMatch(/checksum/);
  expect(await page.getByRole('alert').innerText()).toContain('Nothing was changed.');
  expect(size(await readKept(page))).toEqual([0, 0, 0]);
  await button(page, 'Put it aside').click();

  await chooseBackup(page, 'whole.json', text);
  await button(page, 'Merge them in').click();
  await page.getByText(/^New in this book: 7 tunes/).waitFor(SLOW);
  const after = await readKept(page);
  for (const table of ['tunes', 'sittings', 'drills', 'passes', 'settings'] as const) {
    expect(after[table], table).toEqual(before[table]);
  }
});

test('while a backup is made no worker holds the folded log, and the next screen has its answers all the same', async () => {
  const { page, url } = await openApp({ hasTouch: true });
  await button(page, 'Try it with the demo tunes').click();
  await page.locator('.plan ol li').first().waitFor(SLOW);
  const practising = () => page.workers().filter((worker) => worker.url().includes('practice.worker')).length;
  await soon(practising).toBe(1);
  await page.getByRole('link', { name: 'Settings' }).click();
  await save(page);
  await soon(practising).toBe(0);
  await page.getByRole('link', { name: 'Tunes', exact: true }).click();
  await page.locator('.list .entry-what .soft').first().waitFor(SLOW);
  await soon(practising).toBe(1);
  await page.getByRole('link', { name: 'Today', exact: true }).click();
  await page.waitForURL(`${url}/`, SLOW);
  const before = await page.locator('.plan ol li').count();
  await page.getByLabel('I have').selectOption('5');
  await soon(() => page.locator('.plan ol li').count()).not.toBe(before);
});
