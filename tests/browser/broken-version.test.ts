import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright';
import { expect, inject, onTestFinished, test } from 'vitest';
import { openApp, serveOwn, type OpenApp } from './harness';
import { button, installOffline, soon } from './learner';

const ENTRY = '/_app/immutable/entry';
const NEWEST = /Get the newest version/;
const BEFORE = /Use the version before/;

/** A copy of the build, with its service worker under another version's name. */
function versionOf(name: string) {
  const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-version-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  cpSync(inject('buildFolder'), folder, { recursive: true });
  const { version } = JSON.parse(readFileSync(path.join(folder, '_app/version.json'), 'utf8')) as {
    version: string;
  };
  const made = {
    folder,
    rewrite: (file: string, change: (text: string) => string) => rewrite(folder, file, change),
  };
  made.rewrite('service-worker.js', (text) => text.replaceAll(version, name));
  return made;
}

function rewrite(folder: string, file: string, change: (text: string) => string) {
  const before = readFileSync(path.join(folder, file), 'utf8');
  const after = change(before);
  if (after === before) throw new Error(`Nothing was changed in ${file}`);
  writeFileSync(path.join(folder, file), after);
}

/** As W3C Subresource Integrity writes the hash of a file. */
const integrityOf = (folder: string, file: string) =>
  `sha256-${createHash('sha256')
    .update(readFileSync(path.join(folder, file)))
    .digest('base64')}`;

/** A version whose pages ask for a program that is not there: whole as a copy, and it cannot start. */
function brokenVersion(name: string) {
  const { folder } = versionOf(name);
  const worker: [string, string][] = [];
  for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    const isBegin = /entry\/begin\.\w+\.js$/.test(file);
    if (!statSync(path.join(folder, file)).isFile() || !(isBegin || file.endsWith('.html'))) continue;
    const old = integrityOf(folder, file);
    if (isBegin) {
      const broken = file.replace(/begin\./, 'begin.broken-');
      const text = readFileSync(path.join(folder, file), 'utf8');
      rmSync(path.join(folder, file));
      writeFileSync(path.join(folder, broken), text.replaceAll(/entry\/(start|app)\./g, 'entry/gone-$1.'));
      worker.push([path.basename(file), path.basename(broken)], [old, integrityOf(folder, broken)]);
    } else {
      rewrite(folder, file, (text) => text.replaceAll(`${ENTRY}/begin.`, `${ENTRY}/begin.broken-`));
      worker.push([old, integrityOf(folder, file)]);
    }
  }
  rewrite(folder, 'service-worker.js', (text) =>
    worker.reduce((so, [from, to]) => so.replaceAll(from, to), text),
  );
  return folder;
}

/** One address whose server changes its version. */
async function openFirst(): Promise<{ app: OpenApp; deploy: (folder: string) => Promise<void> }> {
  let server = await serveOwn();
  const port = Number(new URL(server.url).port);
  const app = await openApp({ url: server.url, offlineCopy: true, expectedErrors: [/./] });
  await installOffline(app.page);
  return {
    app,
    deploy: async (folder) => {
      await server.close();
      server = await serveOwn({ folder, port });
    },
  };
}

/** What became of the newest version on the server once it was fetched. */
const update = (page: Page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const { installing } = registration;
    if (!installing) return 'none';
    while (installing.state === 'installing') await new Promise((resolve) => setTimeout(resolve, 20));
    return installing.state;
  });

/** Accepts the version that waits, as the learner does on Today, and waits for its page. */
async function accept(page: Page) {
  await Promise.all([page.waitForEvent('load'), button(page, /^Load now$/).click()]);
}

const versionsHere = (page: Page) =>
  page.evaluate(async () => {
    const kept = await (await caches.open('phrasewright-versions')).match('/phrasewright-versions.json');
    return (await kept?.json()) as { current: string; previous: string | null; isSteppedBack: boolean };
  });

const isUsable = (page: Page) => page.locator('main[data-usable]').waitFor();
const hasNotStarted = (page: Page) =>
  page.getByRole('heading', { name: 'Phrasewright did not start' }).waitFor();

test('an update of which one file arrived cut short is not taken: the version before works on, without a network too', async () => {
  const { app, deploy } = await openFirst();
  const first = await versionsHere(app.page);
  const half = versionOf('half');
  half.rewrite('manifest.webmanifest', (text) => text.slice(0, text.length / 2));
  await deploy(half.folder);
  expect(await update(app.page)).toBe('redundant');
  expect(await versionsHere(app.page)).toEqual(first);
  await app.offline();
  await app.page.reload();
  await isUsable(app.page);
  expect(await versionsHere(app.page)).toEqual(first);
});

test('an update that the device has no room for leaves the version before and the room, and comes once there is some', async () => {
  const { app, deploy } = await openFirst();
  const first = await versionsHere(app.page);
  const cachesHere = () => app.page.evaluate(() => caches.keys());
  const before = await cachesHere();
  await deploy(versionOf('next').folder);
  const cdp = await app.context.newCDPSession(app.page);
  const origin = new URL(app.url).origin;
  const { usage } = await cdp.send('Storage.getUsageAndQuota', { origin });
  await cdp.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: usage + 500_000 });
  expect(await update(app.page)).toBe('redundant');
  await expect.poll(cachesHere).toEqual(before);
  expect(await versionsHere(app.page)).toEqual(first);

  await cdp.send('Storage.overrideQuotaForOrigin', { origin });
  expect(await update(app.page)).toBe('installed');
  await accept(app.page);
  await isUsable(app.page);
  expect((await versionsHere(app.page)).current).toBe('phrasewright-version-next');
});

test('a version that cannot start offers the one before, whole, and the next good version is taken over it', async () => {
  const { app, deploy } = await openFirst();
  const first = (await versionsHere(app.page)).current;
  await deploy(brokenVersion('broken'));
  expect(await update(app.page)).toBe('installed');
  await accept(app.page);
  await hasNotStarted(app.page);

  await button(app.page, BEFORE).click();
  await isUsable(app.page);
  expect(await versionsHere(app.page)).toEqual({
    current: 'phrasewright-version-broken',
    previous: first,
    isSteppedBack: true,
  });
  // every file of the page is the one that the first version has
  const begin = await app.page.locator('script[src*="begin."]').getAttribute('src');
  expect(begin).not.toContain('broken');

  await deploy(versionOf('mended').folder);
  expect(await update(app.page)).toBe('installed');
  await accept(app.page);
  await isUsable(app.page);
  expect(await versionsHere(app.page)).toEqual({
    current: 'phrasewright-version-mended',
    previous: first,
    isSteppedBack: false,
  });
});

test('a new version is not taken while a drill is open in another tab, and is after it', async () => {
  const { app, deploy } = await openFirst();
  const first = await versionsHere(app.page);
  await deploy(versionOf('next').folder);
  expect(await update(app.page)).toBe('installed');
  const drill = await app.context.newPage();
  await drill.goto(`${app.url}/words/`);
  // the lock by which every tab knows of a drill, as the drill screen holds it
  await drill.evaluate(
    () =>
      new Promise<void>((held) => {
        void navigator.locks.request('phrasewright-drill', () => {
          held();
          return new Promise(() => undefined);
        });
      }),
  );
  await button(app.page, /^Load now$/).click();
  await app.page.getByText('A drill is open in another tab').waitFor();
  expect(await versionsHere(app.page)).toEqual(first);
  await drill.close();
  // the browser lets the lock of a closed tab go a moment later
  await soon(() =>
    app.page.evaluate(async () => {
      const { held = [] } = await navigator.locks.query();
      return held.map(({ name }) => name);
    }),
  ).not.toContain('phrasewright-drill');
  await accept(app.page);
  await isUsable(app.page);
  expect((await versionsHere(app.page)).current).toBe('phrasewright-version-next');
});

test('a version that cannot start fetches the newest one when asked', async () => {
  const { app, deploy } = await openFirst();
  await deploy(brokenVersion('broken'));
  expect(await update(app.page)).toBe('installed');
  await accept(app.page);
  await hasNotStarted(app.page);
  await deploy(versionOf('mended').folder);
  await button(app.page, NEWEST).click();
  await isUsable(app.page);
  expect((await versionsHere(app.page)).current).toBe('phrasewright-version-mended');
});
