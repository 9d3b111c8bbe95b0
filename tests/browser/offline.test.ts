import { cpSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright';
import { expect, inject, onTestFinished, test } from 'vitest';
import { installOffline } from './learner';
import { openApp, serveOwn } from './harness';

const ROUTES = ['/', '/tunes/', '/add/', '/tune/', '/drill/', '/progress/', '/settings/'];

/** Addresses of all files of the build. */
const builtFiles = () =>
  readdirSync(inject('buildFolder'), { recursive: true, encoding: 'utf8' })
    .filter((file) => statSync(path.join(inject('buildFolder'), file)).isFile())
    .map((file) => `/${file.split(path.sep).join('/')}`);

/** Addresses of all prerendered screens of the build. */
const screens = () =>
  builtFiles()
    .filter((file) => file.endsWith('/index.html'))
    .map((file) => file.replace(/index\.html$/, ''));

const isUsable = (page: Page) => page.locator('main[data-usable]').waitFor();
const NO_SUCH_SCREEN = /404|not found|no such|no screen/i;

test('with the server gone and no network, every screen opens: bare, with a query, without its last slash', async () => {
  const server = await serveOwn();
  const app = await openApp({ offlineCopy: true, url: server.url });
  await installOffline(app.page);
  await server.close();
  await app.offline();
  expect(screens()).toEqual(expect.arrayContaining(ROUTES));
  for (const screen of screens()) {
    for (const address of [screen, `${screen}?id=none&x=1`, screen.replace(/(.)\/$/, '$1')]) {
      const response = await app.page.goto(server.url + address);
      const seen = [address, response?.status(), response?.fromServiceWorker()];
      expect(seen).toEqual([address, 200, true]);
      await isUsable(app.page);
    }
  }
});

test('the first visit keeps its document when the offline copy takes over, and may lose the network at once', async () => {
  const server = await serveOwn();
  const app = await openApp({ offlineCopy: true, url: server.url });
  await app.page.evaluate(() => Object.assign(window, { isFirstDocument: true }));
  await installOffline(app.page);
  await server.close();
  await app.offline();
  const files = builtFiles().filter((file) => !['/service-worker.js', '/_headers'].includes(file));
  expect(files.length).toBeGreaterThan(10);
  const missing = await app.page.evaluate(async (addresses) => {
    const isHere = (address: string) =>
      fetch(address).then(
        (answer) => answer.ok,
        () => false,
      );
    const found = await Promise.all(addresses.map(isHere));
    return addresses.filter((_, index) => !found[index]);
  }, files);
  expect(missing).toEqual([]);
  expect(await app.page.evaluate(() => 'isFirstDocument' in window)).toBe(true);
});

test('a first copy of which one file came wrong is whole later in the same visit, whatever screens were walked', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-offline-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  cpSync(inject('buildFolder'), folder, { recursive: true });
  const lazy = builtFiles().find((file) => file.includes('.worklet-')) ?? '';
  // served as the file is: to be kept for a year
  writeFileSync(path.join(folder, lazy), 'Sign in to this network first.');
  const server = await serveOwn({ folder });
  const app = await openApp({
    offlineCopy: true,
    url: server.url,
    expectedErrors: [/integrity/, /bad-precaching-response/, /ERR_CONNECTION_REFUSED/],
  });
  await app.page.goto(`${server.url}/tunes/`);
  await isUsable(app.page);
  await app.page.evaluate(() => Object.assign(window, { isSameDocument: true }));
  const registered = () =>
    app.page.evaluate(async () => (await navigator.serviceWorker.getRegistration()) !== undefined);
  await expect.poll(registered, { timeout: 60_000 }).toBe(true);
  await expect.poll(registered, { timeout: 60_000 }).toBe(false);

  await server.close();
  await serveOwn({ port: Number(new URL(server.url).port) });
  await app.page.getByRole('link', { name: 'Today' }).click();
  await app.page.getByText('Everything is on this device now').waitFor({ timeout: 60_000 });
  expect(await app.page.evaluate(() => 'isSameDocument' in window)).toBe(true);
  await app.offline();
  await app.page.reload();
  await isUsable(app.page);
});

test('an address that is no screen gets the words of the app, offline as well', async () => {
  const server = await serveOwn();
  const app = await openApp({ offlineCopy: true, url: server.url, expectedErrors: [/404/, /not found/i] });
  const words = async () => {
    const response = await app.page.goto(`${server.url}/no/such/screen/`);
    await app.page.getByText(NO_SUCH_SCREEN).first().waitFor();
    return [response?.status(), await app.page.locator('#app').innerText()];
  };
  const [status, online] = await words();
  expect(status).toBe(404);
  await installOffline(app.page);
  await server.close();
  await app.offline();
  expect((await words())[1]).toBe(online);
});

test('after the first load nothing comes from the network, on any screen', async () => {
  const app = await openApp({ offlineCopy: true });
  await installOffline(app.page);
  const fromNetwork: string[] = [];
  app.page.on('response', (response) => {
    if (!response.fromServiceWorker() && !response.url().startsWith('data:'))
      fromNetwork.push(response.url());
  });
  for (const screen of screens()) {
    await app.page.goto(app.url + screen, { waitUntil: 'networkidle' });
    await isUsable(app.page);
  }
  expect(fromNetwork).toEqual([]);
});
