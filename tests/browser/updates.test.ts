import { appendFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright';
import { build } from 'vite';
import { expect, inject, onTestFinished, test } from 'vitest';
import type * as Updates from '../../src/lib/offline/updates';
import { openApp, serveOwn } from './harness';

declare global {
  interface Window {
    updates: typeof Updates;
    told: string[];
    offline: Updates.Offline | null;
  }
}

const PROBE = '/updates-probe.js';

/** A document of the same origin, in the offline copy, on which no app runs. */
const BARE = '/_app/version.json';

/** A copy of the build that also serves src/lib/offline/updates.ts by itself, under PROBE. */
async function copyOfBuild() {
  const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-updates-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  cpSync(inject('buildFolder'), folder, { recursive: true });
  await build({
    configFile: false,
    logLevel: 'error',
    // what a production build says; the test runner has set NODE_ENV otherwise
    define: { 'process.env.NODE_ENV': '"production"', 'import.meta.env.DEV': 'false' },
    build: {
      emptyOutDir: false,
      outDir: folder,
      lib: {
        entry: path.resolve(import.meta.dirname, '../../src/lib/offline/updates.ts'),
        formats: ['es'],
        fileName: () => path.basename(PROBE),
      },
    },
  });
  return folder;
}

/** Registers through the module under test and writes down in `window.told` what it reports. */
async function register(page: Page) {
  // as text: the test runner would rewrite an import() that it can see
  await page.evaluate(`import('${PROBE}').then((module) => { window.updates = module; })`);
  await page.evaluate(() => {
    window.told = [];
    window.offline = window.updates.registerOffline({
      onReady: () => window.told.push('ready'),
      onUpdateWaiting: () => window.told.push('waiting'),
      onUpdateTaken: () => window.told.push('taken'),
    });
  });
}

const told = (page: Page) => page.evaluate(() => window.told);
const isTold = (page: Page, words: string[]) =>
  expect.poll(() => told(page), { timeout: 30_000 }).toEqual(words);

test('the first visit is told once that all is here; a new version waits for a yes, then every tab hears of it', async () => {
  const folder = await copyOfBuild();
  const server = await serveOwn({ folder });
  const app = await openApp({ offlineCopy: true, url: server.url, path: BARE, expectedErrors: [/favicon/] });
  await register(app.page);
  await isTold(app.page, ['ready']);

  await app.page.reload();
  await register(app.page);
  const other = await app.context.newPage();
  await other.goto(server.url + BARE);
  await register(other);

  appendFileSync(path.join(folder, 'service-worker.js'), '\n// the next version\n');
  await server.close();
  await serveOwn({ folder, port: Number(new URL(server.url).port) });
  await app.page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  await isTold(app.page, ['waiting']);
  await isTold(other, ['waiting']);

  await app.page.evaluate(() => window.offline?.acceptUpdate());
  await isTold(other, ['waiting', 'taken']);
  // neither page was reloaded: what was written down on it is still there
  expect(await told(app.page)).toEqual(['waiting']);
});

test('accepting when nothing waits says so', async () => {
  const server = await serveOwn({ folder: await copyOfBuild() });
  const app = await openApp({ offlineCopy: true, url: server.url, path: BARE, expectedErrors: [/favicon/] });
  await register(app.page);
  await isTold(app.page, ['ready']);
  await expect(app.page.evaluate(() => window.offline?.acceptUpdate())).rejects.toThrow(
    'No newer version is waiting',
  );
});

test('with no server at first nothing is thrown, and the same visit has everything once it is there', async () => {
  const folder = await copyOfBuild();
  const server = await serveOwn({ folder });
  const app = await openApp({
    offlineCopy: true,
    url: server.url,
    path: BARE,
    expectedErrors: [/favicon/, /fetching the script/, /ERR_CONNECTION_REFUSED/],
  });
  await app.page.evaluate(`import('${PROBE}')`);
  await server.close();
  await register(app.page);
  await app.page.waitForTimeout(1000);
  expect(await told(app.page)).toEqual([]);
  await serveOwn({ folder, port: Number(new URL(server.url).port) });
  await isTold(app.page, ['ready']);
});

test('a page that was loaded past the offline copy is told of a new version, and accepts it', async () => {
  const folder = await copyOfBuild();
  const server = await serveOwn({ folder });
  const app = await openApp({ offlineCopy: true, url: server.url, path: BARE, expectedErrors: [/favicon/] });
  await register(app.page);
  await isTold(app.page, ['ready']);
  // as the browser's own hard reload does
  const past = await app.context.newPage();
  const cdp = await app.context.newCDPSession(past);
  await past.goto(server.url + BARE);
  await Promise.all([past.waitForEvent('load'), cdp.send('Page.reload', { ignoreCache: true })]);
  expect(await past.evaluate(() => navigator.serviceWorker.controller)).toBe(null);
  await register(past);

  appendFileSync(path.join(folder, 'service-worker.js'), '\n// the next version\n');
  await server.close();
  await serveOwn({ folder, port: Number(new URL(server.url).port) });
  await past.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
  await isTold(past, ['waiting']);
  await past.evaluate(() => window.offline?.acceptUpdate());
  await isTold(app.page, ['ready', 'waiting', 'taken']);
  expect(await told(past)).toEqual(['waiting']);
});
