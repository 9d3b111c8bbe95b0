import { readdirSync, readFileSync, rmSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { spawnSync } from 'node:child_process';
import { type BrowserContext, chromium, type Page } from 'playwright';
import { findOrInstallBrowser, LAUNCH } from '../../.house/browser.js';
import { giveUp, ROOT } from '../../.house/prepare.js';
import { DAY_MS } from '../../src/lib/core/time/moment';
import type { BIG } from './big-book';
import { PHONE } from './built-app';
import type { ScalePage } from './scale-page/main';
import { WATCH } from './scale-watch';

declare global {
  var scalePage: ScalePage;
}

/** Any file of the origin that is no page of the app: the app's code does not run there, and its storage is at hand. */
const ASIDE = '/icons/icon-192.png';
/** Long enough for a machine busy with other work; the figure then shows it. */
const WITHIN = { timeout: 120_000 };

/** A made-up book in a browser's profile of its own, as the built app finds it. */
export class ScaleBook {
  readonly #folder: string;
  readonly #url: string;
  readonly #script: string;

  constructor(url: string, script: string, folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-scale-'))) {
    this.#url = url;
    this.#script = script;
    this.#folder = folder;
  }

  /** Writes the book; its last sitting was yesterday. */
  async fill(size: typeof BIG): Promise<void> {
    const firstDay = Math.floor(Date.now() / DAY_MS - size.years * 365.25 - 1) * DAY_MS;
    await this.aside(async (page) => {
      await page.evaluate(([one, day]) => scalePage.fill(one, day), [size, firstDay] as const);
    });
  }

  /** A page beside the app, in a browser just started. */
  aside<T>(use: (page: Page) => Promise<T>): Promise<T> {
    return this.#browse(async (context) => {
      const page = await context.newPage();
      await page.goto(this.#url + ASIDE);
      await page.evaluate(this.#script);
      return use(page);
    });
  }

  /** The app in a browser just started, watched (scale-watch.ts), once its plan is of the log as it stands; `slowdown`: of the processor. */
  open<T>(slowdown: number, use: (page: Page, context: BrowserContext) => Promise<T>): Promise<T> {
    return this.#browse(async (context) => {
      const page = await context.newPage();
      await page.addInitScript({ content: WATCH });
      const session = await context.newCDPSession(page);
      await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
      await page.goto(this.#url, { waitUntil: 'commit' });
      await page.waitForFunction(() => scaleWatch.plannedMs !== null, undefined, WITHIN);
      return use(page, context);
    });
  }

  async #browse<T>(use: (context: BrowserContext) => Promise<T>): Promise<T> {
    const executablePath =
      findOrInstallBrowser() ?? giveUp('No Chromium found: set PHRASEWRIGHT_BROWSER to its path.');
    const options = { ...LAUNCH, executablePath, viewport: PHONE };
    const context = await chromium.launchPersistentContext(this.#folder, options);
    try {
      return await use(context);
    } finally {
      await context.close();
    }
  }

  remove(): void {
    rmSync(this.#folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** The script of `scale-page/`. */
export function builtScalePage(): string {
  const vite = path.join(ROOT, 'node_modules/vite/bin/vite.js');
  const config = path.join(ROOT, 'tests/bench/scale-page/vite.config.js');
  const { status, stdout, stderr } = spawnSync(process.execPath, [vite, 'build', '--config', config], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`The page of the big book does not build:\n${stdout}${stderr}`);
  return readFileSync(path.join(ROOT, '.cache/scale-page/scale.js'), 'utf8');
}

/** Address of the script that has the store in it. */
export function storeUrl(build: string): string {
  const folder = '/_app/immutable/chunks/';
  const script = readdirSync(path.join(build, folder)).find(
    (name) =>
      /\bBookStore(?::| as |\s*\})|as BookStore\b/.test(
        readFileSync(path.join(build, folder, name), 'utf8'),
      ) && !/const\{BookStore:/.test(readFileSync(path.join(build, folder, name), 'utf8')),
  );
  if (!script) throw new Error(`No script of ${build} has the store in it`);
  return folder + script;
}
