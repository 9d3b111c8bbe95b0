import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright';
import { afterAll, inject, onTestFinished } from 'vitest';
import { findBrowser, LAUNCH } from '../../.house/browser.js';
import { serveApp } from '../../.house/serve.js';

export const PHONE = { width: 390, height: 844 };
export const DESKTOP = { width: 1280, height: 800 };

export interface OpenOptions {
  /** Where to go first; default `/`. `null` leaves the page blank. */
  path?: string | null;
  /** Origin; default the app as served to all tests. */
  url?: string;
  /** Default PHONE. */
  viewport?: { width: number; height: number };
  colorScheme?: 'light' | 'dark';
  reducedMotion?: 'reduce' | 'no-preference';
  /** Default Europe/London. `null`: that of the machine, for a test that sets it by the browser's own protocol. */
  timezoneId?: string | null;
  /** Folder of a profile that outlives the browser; see `makeProfile`. Without it everything is forgotten. */
  userDataDir?: string;
  /** Unix ms that the page's clock shows at opening; it runs on from there. Timers and audio keep real time. */
  clockMs?: number;
  permissions?: string[];
  /** A touch screen, for `page.touchscreen`. */
  hasTouch?: boolean;
  /** Further command-line arguments; a browser of its own is started for them. */
  args?: string[];
  /** Lets the app make its offline copy, which every first visit pays for; default false, for tests that are about something else. */
  offlineCopy?: boolean;
  /** BCP 47 tag of the reader; default en-GB. */
  locale?: string;
  /** Console errors that this test means to cause. */
  expectedErrors?: RegExp[];
}

export interface OpenApp {
  context: BrowserContext;
  page: Page;
  url: string;
  /** Console errors, page errors, policy violations and requests to any other origin so far, of all pages of the context. */
  errors: string[];
  /** Takes the network from the pages and from the service worker. */
  offline(): Promise<void>;
  online(): Promise<void>;
  /** Closes; throws when any unexpected error was seen. Runs by itself at the end of the test. */
  close(): Promise<void>;
}

let shared: Promise<Browser> | null = null;

afterAll(async () => {
  await (await shared)?.close();
  shared = null;
});

const launchOptions = (args: readonly string[]) => ({
  executablePath: findBrowser() ?? '/usr/bin/chromium',
  headless: true,
  chromiumSandbox: LAUNCH.chromiumSandbox,
  args: [...LAUNCH.args, ...args],
});

function contextOptions(options: OpenOptions): BrowserContextOptions {
  return {
    viewport: options.viewport ?? PHONE,
    colorScheme: options.colorScheme ?? 'light',
    reducedMotion: options.reducedMotion ?? 'no-preference',
    permissions: options.permissions ?? [],
    hasTouch: options.hasTouch ?? false,
    ...(options.timezoneId === null ? {} : { timezoneId: options.timezoneId ?? 'Europe/London' }),
    locale: options.locale ?? 'en-GB',
    serviceWorkers: options.offlineCopy ? 'allow' : 'block',
  };
}

async function openContext(
  options: OpenOptions,
  args: readonly string[],
): Promise<[BrowserContext, Browser | null]> {
  const forContext = contextOptions(options);
  if (options.userDataDir !== undefined) {
    const both = { ...forContext, ...launchOptions(args) };
    return [await chromium.launchPersistentContext(options.userDataDir, both), null];
  }
  if (args.length > 0) {
    const own = await chromium.launch(launchOptions(args));
    return [await own.newContext(forContext), own];
  }
  shared ??= chromium.launch(launchOptions([]));
  return [await (await shared).newContext(forContext), null];
}

/** Shifts `Date` in every page of the context; performance.now, timers and the audio clock stay as they are. */
async function shiftClock(context: BrowserContext, clockMs: number) {
  await context.addInitScript((shiftMs) => {
    const Real = Date;
    globalThis.Date = new Proxy(Real, {
      construct: (target, args, newTarget) =>
        Reflect.construct(target, args.length > 0 ? args : [target.now() + shiftMs], newTarget) as object,
      apply: (target) => new target(target.now() + shiftMs).toString(),
      get: (target, key, receiver) =>
        key === 'now' ? () => target.now() + shiftMs : (Reflect.get(target, key, receiver) as unknown),
    });
  }, clockMs - Date.now());
}

function collectErrors(context: BrowserContext, url: string, expected: readonly RegExp[]): string[] {
  const errors: string[] = [];
  const note = (text: string) => {
    if (!expected.some((pattern) => pattern.test(text))) errors.push(text);
  };
  context.on('console', (message) => {
    if (message.type() === 'error') note(`${message.text()} (${message.location().url})`);
  });
  context.on('request', (request) => {
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith('http') && origin !== url) note(`asked another origin: ${request.url()}`);
  });
  context.on('weberror', (error) => {
    const seen: unknown = error.error();
    note(
      seen instanceof Error
        ? `${seen.name}: ${seen.message}\n${seen.stack ?? ''}`
        : `thrown: ${String(seen)}`,
    );
  });
  return errors;
}

/** Opens the built app in Chromium. */
export async function openApp(options: OpenOptions = {}): Promise<OpenApp> {
  const url = options.url ?? inject('appUrl');
  const [context, own] = await openContext(options, options.args ?? []);
  if (options.clockMs !== undefined) await shiftClock(context, options.clockMs);
  const errors = collectErrors(context, url, options.expectedErrors ?? []);
  const page = context.pages()[0] ?? (await context.newPage());
  let isClosed = false;
  const close = async () => {
    if (isClosed) return;
    isClosed = true;
    await context.close();
    await own?.close();
    if (errors.length > 0) throw new Error(`The app reported errors:\n${errors.join('\n')}`);
  };
  onTestFinished(close);
  if (options.path !== null) await page.goto(url + (options.path ?? '/'), { waitUntil: 'load' });
  return {
    context,
    page,
    url,
    errors,
    offline: () => context.setOffline(true),
    online: () => context.setOffline(false),
    close,
  };
}

/**
 * A profile folder for `userDataDir`, removed after the test: open, close and open again as the same learner. Tests that run
 * together hand in their own `onTestFinished`: the general one would remove the folder when another of them is done.
 */
export function makeProfile(finished: (remove: () => void) => void = onTestFinished): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'phrasewright-'));
  finished(() => {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  });
  return folder;
}

/** A server of this test's own, to stop or start again. The folder is read once: changed files need a new server. */
export async function serveOwn({ folder = inject('buildFolder'), port = 0 } = {}) {
  const server = await serveApp({ folder, port });
  onTestFinished(() => server.close());
  return server;
}
