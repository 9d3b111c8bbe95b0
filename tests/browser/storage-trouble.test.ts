import { randomUUID } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { readBackup, writeBackup } from '../../src/lib/core/book/backup';
import { emptyBook, type Book } from '../../src/lib/core/book/book';
import { EVENING, figure, pass, START, WINTER_TUNE } from '../core/book/made-up-books';
import { makeProfile, openApp, type OpenApp } from './harness';
import {
  addTune,
  begin,
  button,
  isUsable,
  markNext,
  outcomes,
  readKept,
  SLOW,
  soon,
  touch,
  wordIs,
} from './learner';

/** What the browser itself says in the console of a write that it refused. */
const REFUSED = [/Quota/i, /QuotaExceededError/i];

const kept = async (page: Page) => outcomes((await readKept(page)).passes.map(({ entry }) => entry));

/** Room for the app's own files and a book; Chromium looks anew only when what it knew to be left is used up. */
const ROOM = 20_000_000;

const CHOSEN = [
  ['climb', 'alternating'],
  ['theme', 'dark'],
];

/** Gives the way to leave the origin no room at all, or as much as before: for as long as the session lasts. */
async function roomOf({ context, page, url: origin }: OpenApp): Promise<(isThere: boolean) => Promise<void>> {
  const session = await context.newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: ROOM });
  return async (isThere) => {
    if (isThere) await session.send('Storage.overrideQuotaForOrigin', { origin });
    else await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: ROOM });
    if (!isThere) await page.evaluate(useUp);
  };
}

/** Fills what room is left with a database of its own, of bytes that the browser cannot press together. */
async function useUp(): Promise<void> {
  const opening = indexedDB.open('filler');
  await new Promise((resolve, reject) => {
    opening.onupgradeneeded = () => opening.result.createObjectStore('junk', { autoIncrement: true });
    opening.onsuccess = resolve;
    opening.onerror = () => reject(opening.error ?? new Error('no filler'));
  });
  const drawnAtOnce = 65_536;
  const write = (bytes: number) =>
    new Promise<boolean>((resolve) => {
      const junk = new Uint8Array(bytes);
      for (let at = 0; at < bytes; at += drawnAtOnce)
        crypto.getRandomValues(junk.subarray(at, at + drawnAtOnce));
      const writing = opening.result.transaction('junk', 'readwrite');
      writing.objectStore('junk').add(junk);
      writing.oncomplete = () => resolve(true);
      writing.onabort = () => resolve(false);
    });
  for (let bytes = 4_000_000; bytes >= 50; bytes = Math.floor(bytes / 3)) while (await write(bytes));
  opening.result.close();
}

const randomId = () => randomUUID().replace(/^(.{14})4/, '$17');

/** A tune and a sitting so long that Chromium keeps each in a file of its own: it presses small ones together. */
function longBook(): Book {
  const figures = Array.from({ length: 3000 }, () => ({ ...figure(1), id: randomId() }));
  const drillId = EVENING.drills[0]?.id ?? '';
  const log = Array.from({ length: 3000 }, (_, index) => ({
    ...{ ...pass(1, 1), id: randomId(), drillId },
    at: EVENING.at + index,
  }));
  const tune = { ...WINTER_TUNE, figures: [...WINTER_TUNE.figures, ...figures] };
  return { ...emptyBook(), tunes: [tune], sittings: [{ ...EVENING, log, endedAt: EVENING.at + 3000 }] };
}

test('with no room left every write says so, the mark waits, goes into a file, and is saved when there is room', async () => {
  const app = await openApp({ path: null, hasTouch: true, expectedErrors: REFUSED });
  const { page, url } = app;
  const leaveRoom = await roomOf(app);
  await page.goto(`${url}/add/`);
  await addTune(page, { title: 'No Room', goal: 300 });
  await begin(page);
  while ((await kept(page)).length < 1) await markNext(page, 1);
  const marks = await kept(page);

  await leaveRoom(false);
  await page.locator('.drill.breathing').waitFor(SLOW);
  await touch(page, 1);
  await page.getByText('The last pass is not saved: There is no room left on this device').waitFor(SLOW);
  await page.getByText('1 mark waits here until then.').waitFor(SLOW);
  await wordIs(page, /^paused$/);
  expect(await kept(page)).toEqual(marks);

  const [download] = await Promise.all([
    page.waitForEvent('download'),
    button(page, 'Save to a file').click(),
  ]);
  const reading = readBackup(readFileSync(await download.path(), 'utf8'));
  expect(reading).toMatchObject({ ok: true });
  const saved = reading.ok ? reading.book.sittings.flatMap(({ log }) => log) : [];
  expect(saved.filter(({ kind }) => kind === 'pass')).toHaveLength(marks.length + 1);

  // by itself, once there is room
  await leaveRoom(true);
  await page.getByText('The last pass is not saved').waitFor({ state: 'detached', ...SLOW });
  expect(await kept(page)).toHaveLength(marks.length + 1);

  // what else is written says it in the same words, and holds on the page or changes nothing
  await page.goto(`${url}/add/`);
  await isUsable(page);
  await leaveRoom(false);
  await page.getByLabel('Title').fill('Not Kept');
  await button(page, /^Keep this tune/).click();
  await page.getByText('The tune was not kept: There is no room left on this device').waitFor(SLOW);
  await page.goto(`${url}/settings/`);
  await isUsable(page);
  await page.getByRole('radio', { name: 'alternating' }).check();
  await page.getByText('Not saved yet: 1 setting. There is no room left on this device').waitFor(SLOW);
  await page.getByRole('radio', { name: 'dark', exact: true }).check();
  await page.getByText('Not saved yet: 2 settings.').waitFor(SLOW);
  expect(await page.getByRole('radio', { name: 'alternating' }).isChecked()).toBe(true);
  await page.getByRole('link', { name: 'Tunes' }).click();
  await page.getByText('No Room', { exact: true }).waitFor(SLOW);
  const [settingsFile] = await Promise.all([
    page.waitForEvent('download'),
    button(page, 'Save to a file').click(),
  ]);
  const settings = readBackup(readFileSync(await settingsFile.path(), 'utf8'));
  expect(settings.ok && settings.book.settings.map(({ key, value }) => [key, value])).toEqual(CHOSEN);
  await leaveRoom(true);
  await page.getByText('Not saved yet').waitFor({ state: 'detached', ...SLOW });
  const { settings: rows, tunes } = await readKept(page);
  expect(rows.map(({ key, value }) => [key, value])).toEqual(CHOSEN);
  expect(tunes.map(({ title }) => title)).toEqual(['No Room']);
});

test('what is written on a measure with no room left is kept by itself when there is room, and is there after a reload', async () => {
  const app = await openApp({ path: null, hasTouch: true, expectedErrors: REFUSED });
  const { page, url } = app;
  const leaveRoom = await roomOf(app);
  await page.goto(`${url}/add/`);
  await addTune(page, { title: 'No Room' });
  const [tune] = (await readKept(page)).tunes;
  await page.goto(`${url}/measure/?tune=${tune?.id}`);
  await isUsable(page);
  await leaveRoom(false);
  await page.keyboard.press('2');
  await page.getByText('There is no room left on this device').waitFor(SLOW);
  await leaveRoom(true);
  await page.getByText('There is no room left on this device').waitFor({ state: 'detached', ...SLOW });
  await page.reload();
  await page.getByText('Taken up where you left it.').waitFor(SLOW);
});

test('a database that the browser cannot open is said, and the second copy can be saved to a file', async () => {
  const userDataDir = makeProfile();
  const first = await openApp({ userDataDir, path: '/add/', hasTouch: true });
  await addTune(first.page, { title: 'Behind The Wall', goal: 300 });
  await begin(first.page);
  while ((await kept(first.page)).length < 1) await markNext(first.page, 1);
  const passes = (await kept(first.page)).length;
  await first.close();
  const folder = path.join(userDataDir, 'Default', 'IndexedDB');
  rmSync(folder, { recursive: true });
  writeFileSync(folder, 'no folder');

  const { page } = await openApp({ userDataDir, expectedErrors: [/IndexedDB|backing store|UnknownError/i] });
  await page.getByText('does not let Phrasewright keep its book').waitFor(SLOW);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    button(page, 'Save what can be read to a file').click(),
  ]);
  const reading = readBackup(readFileSync(await download.path(), 'utf8'));
  expect(reading.ok && reading.book.tunes.map(({ title }) => title)).toEqual(['Behind The Wall']);
  expect(
    reading.ok && reading.book.sittings.flatMap(({ log }) => log).filter(({ kind }) => kind === 'pass'),
  ).toHaveLength(passes);
});

test('records whose files the browser has lost stand in the way of nothing, and come back from the second copy', async () => {
  const userDataDir = makeProfile();
  const first = await openApp({ userDataDir, path: '/settings/' });
  await isUsable(first.page);
  await first.page.locator('input[type=file]').setInputFiles({
    ...{ name: 'long.json', mimeType: 'application/json' },
    buffer: Buffer.from(writeBackup(longBook(), { at: START, offsetMin: 0 })),
  });
  await button(first.page, 'Merge them in').click();
  await soon(async () => (await readKept(first.page)).sittings.length).toBe(1);
  const before = await readKept(first.page);
  await first.close();
  const folder = path.join(userDataDir, 'Default', 'IndexedDB');
  const [ofValues = ''] = readdirSync(folder).filter((name) => name.endsWith('.blob'));
  rmSync(path.join(folder, ofValues), { recursive: true });

  const { page } = await openApp({ userDataDir, path: '/tunes/' });
  await page.getByText(WINTER_TUNE.title).first().waitFor(SLOW);
  await soon(async () => (await readKept(page)).sittings).toEqual(before.sittings);
  expect((await readKept(page)).tunes).toEqual(before.tunes);
  await page.getByRole('link', { name: 'Settings' }).click();
  await page.getByText('A whole one is back in the book.').first().waitFor(SLOW);
});

test('a browser that is told to keep nothing for sites is answered in plain words', async () => {
  const userDataDir = makeProfile();
  mkdirSync(path.join(userDataDir, 'Default'), { recursive: true });
  const preferences = { profile: { default_content_setting_values: { cookies: 2 } } };
  writeFileSync(path.join(userDataDir, 'Default', 'Preferences'), JSON.stringify(preferences));
  const { page } = await openApp({ userDataDir, expectedErrors: [/./] });
  await page.getByText('does not let Phrasewright keep its book').waitFor(SLOW);
});
