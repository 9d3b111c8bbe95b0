import { spawnSync } from 'node:child_process';
import { copyFileSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { type BrowserContext, chromium, type Page, type Request } from 'playwright';
import { findOrInstallBrowser, LAUNCH } from '../../.house/browser.js';
import { BUILD, ensureBuilt, giveUp, ROOT } from '../../.house/prepare.js';
import { serveApp } from '../../.house/serve.js';

/** Phones of the middle range run JavaScript about four times slower than these machines (DESIGN section 7). */
export const PHONE_SLOWDOWN = 4;
export const PHONE = { width: 390, height: 844 };
/** The mark that a screen puts on its `<main>` once a touch on it does something. */
const USABLE = '[data-usable]';
/** Long enough for a machine busy with other work; the figure then shows it. */
const USABLE_WITHIN_MS = 60_000;

export interface Load {
  /** gzip bytes of each script fetched before the screen was usable */
  scripts: Map<string, number>;
  /** from navigation to usable */
  usableMs: number;
}

/** Where the built app lies, building it first when its sources changed. PHRASEWRIGHT_BUILD names another build. */
export function builtApp(): string {
  if (!process.env['PHRASEWRIGHT_BUILD']) ensureBuilt();
  return appFolder();
}

function appFolder(): string {
  const name = process.env['PHRASEWRIGHT_BUILD'];
  return name ? path.join(ROOT, '.cache', name, 'build') : BUILD;
}

/** Builds the bare page of the reference. */
export function builtBarePage(): string {
  const cwd = path.join(ROOT, 'tests/bench/bare-page');
  const vite = path.join(ROOT, 'node_modules/vite/bin/vite.js');
  const { status, stdout, stderr } = spawnSync(process.execPath, [vite, 'build'], { cwd, encoding: 'utf8' });
  if (status !== 0) throw new Error(`The bare page does not build:\n${stdout}${stderr}`);
  return path.join(ROOT, '.cache/bare-page/build');
}

/** Builds a page of the bench, by the configuration in its folder, and tells where it lies. */
export function builtBenchPage(name: 'click-page' | 'tab-page'): string {
  const vite = path.join(ROOT, 'node_modules/vite/bin/vite.js');
  const config = path.join(ROOT, 'tests/bench', name, 'vite.config.js');
  const { status, stdout, stderr } = spawnSync(process.execPath, [vite, 'build', '--config', config], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${name} does not build:\n${stdout}${stderr}`);
  const folder = path.join(ROOT, '.cache', name);
  copyFileSync(path.join(folder, 'index.html'), path.join(folder, '404.html'));
  return folder;
}

/** Serves a build and hands a phone-sized browser context on it to `use`. The app's headers are for the app alone. */
export async function withBuild<T>(
  folder: string,
  use: (context: BrowserContext, url: string) => Promise<T>,
) {
  const isApp = folder === appFolder();
  const executablePath =
    findOrInstallBrowser() ?? giveUp('No Chromium found: set PHRASEWRIGHT_BROWSER to its path.');
  const server = await serveApp({ folder, port: 0, ...(isApp ? {} : { headers: {} }) });
  const browser = await chromium.launch({ ...LAUNCH, executablePath });
  try {
    return await use(await browser.newContext({ viewport: PHONE }), server.url);
  } finally {
    await browser.close();
    await server.close();
  }
}

/** Slows a page down to a phone's processor from now on. */
export async function slowDown(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: PHONE_SLOWDOWN });
}

/** Opens an address on a new page, slowed down to a phone, and waits until it is usable. */
export async function loadSlowly(context: BrowserContext, folder: string, address: string): Promise<Load> {
  const page = await context.newPage();
  const requests: Request[] = [];
  context.on('request', (request) => requests.push(request));
  await page.addInitScript({ content: NOTE_WHEN_USABLE });
  await slowDown(page);
  await page.goto(address, { waitUntil: 'load' });
  const { usableMs, usableAt } = await whenUsable(page);
  const early = requests.filter((request) => isScript(request) && request.timing().startTime <= usableAt);
  await page.close();
  const sizes = early.map((request) => {
    const { pathname } = new URL(request.url());
    return [pathname, gzipSync(readFileSync(path.join(folder, pathname)), { level: 9 }).length] as const;
  });
  return { scripts: new Map(sizes), usableMs };
}

const isScript = (request: Request) => /\.m?js$/.test(new URL(request.url()).pathname);

declare global {
  interface Window {
    usableMs?: number;
  }
}

/** As text: the loader of this file would put calls to a helper of its own into a function that it can see. */
const NOTE_WHEN_USABLE = `
  new MutationObserver(() => {
    if (window.usableMs === undefined && document.querySelector('${USABLE}')) window.usableMs = performance.now();
  }).observe(document, { childList: true, subtree: true, attributes: true });
`;

/** @returns ms since navigation, and the same as Unix ms */
async function whenUsable(page: Page) {
  await page.waitForFunction(() => window.usableMs !== undefined, undefined, { timeout: USABLE_WITHIN_MS });
  return page.evaluate(() => {
    const usableMs = window.usableMs ?? Number.NaN;
    return { usableMs, usableAt: performance.timeOrigin + usableMs };
  });
}
