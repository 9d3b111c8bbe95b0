import { createReadStream, createWriteStream, mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGunzip, createGzip } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright';
import { ROOT } from '../../../.house/prepare.js';
import { BackupWriter } from '../../../src/lib/core/book/backup-writer';
import { BIG, bigLife, FIRST_DAY } from '../big-book';
import { builtApp, withBuild } from '../built-app';
import type { Figure } from '../figure';
import { MemoryWatch } from '../process-memory';
import { builtScalePage } from '../scale-book';
import type { BareBackup } from '../scale-page/bare-backup';
import { WATCH } from '../scale-watch';

/** DESIGN section 7, in as many sittings as such a learner would have. */
const SIZE = { ...BIG, sittings: 10_000 };
const NOW = { at: Date.UTC(2026, 10, 26), offsetMin: 60 };
const FOLDER = path.join(ROOT, '.cache/bench-backup');
/** Any file of the origin that is no page of the app. */
const ASIDE = '/icons/icon-192.png';
/** Long enough for a machine busy with other work; the figure then shows it. */
const WITHIN = { timeout: 600_000 };

interface Stage {
  seconds: number;
  /** Of the page before it, and the most; 0 where the system does not tell. */
  idleMb: number;
  peakMb: number;
  longestTaskMs: number;
}

interface Measured {
  checked: Stage;
  merged: Stage;
  copied: Stage;
  exported: Stage;
  /** Of the file that came out. */
  checksum: string;
  bare: BareBackup;
}

/** The book as a packed file, never held as a whole. */
async function writeFile(file: string): Promise<void> {
  const writer = new BackupWriter(NOW);
  function* texts(): Generator<string> {
    const life = bigLife(SIZE, FIRST_DAY);
    let step = life.next();
    for (; !step.done; step = life.next()) yield writer.add('sittings', [step.value]);
    yield writer.add('tunes', step.value);
    yield writer.finish();
  }
  await pipeline(Readable.from(texts()), createGzip(), createWriteStream(file));
}

/** The checksum at the end of a packed backup. */
async function checksumOf(file: string): Promise<string> {
  let end = '';
  for await (const part of createReadStream(file).pipe(createGunzip()).setEncoding('latin1')) {
    end = (end + String(part)).slice(-200);
  }
  const checksum = /"checksum":"([0-9a-f]{64})"\n\}\n$/.exec(end)?.[1];
  if (checksum === undefined) throw new Error(`${file} does not end as a backup`);
  return checksum;
}

/** As text: the loader of this file would put calls to a helper of its own into a function that it can see. */
const WATCH_TASKS = `
  window.longestTaskMs = 0;
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) window.longestTaskMs = Math.max(window.longestTaskMs, duration);
  }).observe({ type: 'longtask' });
`;

declare global {
  interface Window {
    longestTaskMs: number;
  }
}

function browserOf(page: Page): Browser {
  const browser = page.context().browser();
  if (!browser) throw new Error('The page has no browser');
  return browser;
}

async function during(page: Page, name: string, work: () => Promise<unknown>): Promise<Stage> {
  await page.evaluate(() => (window.longestTaskMs = 0));
  const memory = await MemoryWatch.begin(browserOf(page));
  const began = performance.now();
  await work();
  const seconds = (performance.now() - began) / 1000;
  const stage = {
    seconds,
    idleMb: memory.idleMb,
    peakMb: memory.end(),
    longestTaskMs: await page.evaluate(() => window.longestTaskMs),
  };
  console.error(`${name}: ${JSON.stringify(stage)}`);
  return stage;
}

async function measureIn(context: BrowserContext, url: string, file: string): Promise<Measured> {
  for (const content of [WATCH_TASKS, WATCH]) await context.addInitScript({ content });
  let page = await context.newPage();
  await page.goto(`${url}/settings/`);
  const button = (name: string) => page.getByRole('button', { name, exact: true });
  await button('Save a backup').waitFor();
  const checked = await during(page, 'checked', async () => {
    await page.locator('input[type=file]').setInputFiles(file);
    await button('Merge them in').waitFor(WITHIN);
  });
  const merged = await during(page, 'merged', async () => {
    await button('Merge them in').click();
    await page.getByText(/^Bringing the second copy/).waitFor(WITHIN);
  });
  const copied = await during(page, 'copied', () => page.getByText(/^New in this book/).waitFor(WITHIN));
  // what the app does by itself after an import and at a start, reading the log for its fold and a look at every record, is not
  // part of an export, and neither is what an import has left in its process
  await page.reload();
  await page.waitForFunction(
    () => scaleWatch.asked.some(({ verb }) => verb === 'keepFor'),
    undefined,
    WITHIN,
  );
  await page.close();
  page = await context.newPage();
  await page.goto(`${url}/settings/`);
  await page.getByText(/1,000,000 passes/).waitFor(WITHIN);
  await MemoryWatch.rest(browserOf(page));
  let saved = '';
  const exported = await during(page, 'exported', async () => {
    const [download] = await Promise.all([
      page.waitForEvent('download', WITHIN),
      button('Save a backup').click(),
    ]);
    saved = await download.path();
  });
  const checksum = await checksumOf(saved);
  await page.goto(url + ASIDE);
  await page.evaluate(builtScalePage());
  const bare = await page.evaluate(() => scalePage.bareBackup());
  return { checked, merged, copied, exported, checksum, bare };
}

/** A backup of twenty years taken in and given out by the built app, beside the platform's own parts by themselves. */
export async function* measure(): AsyncIterable<Figure> {
  const folder = builtApp();
  mkdirSync(FOLDER, { recursive: true });
  const file = path.join(FOLDER, 'big.json.gz');
  await writeFile(file);
  const measured = await withBuild(folder, (context, url) => measureIn(context, url, file));
  const isSame = measured.checksum === (await checksumOf(file));
  rmSync(FOLDER, { recursive: true });
  if (!isSame) throw new Error('The book that came out is not the one that went in');
  yield* figuresOf(measured);
}

function* figuresOf({ checked, merged, copied, exported, bare }: Measured): Generator<Figure> {
  const bareIn = { name: 'unpacked, parsed and put into IndexedDB by itself', value: bare.inMs / 1000 };
  const bareOut = { name: 'read from IndexedDB, as JSON, packed, by itself', value: bare.outMs / 1000 };
  const time = { unit: 's, 1,000,000 passes', better: 'lower' } as const;
  yield { figure: 'backup-export', value: exported.seconds, ...time, reference: bareOut };
  yield { figure: 'backup-import-checked', value: checked.seconds, ...time, reference: bareIn };
  yield { figure: 'backup-import-merged', value: merged.seconds, ...time, reference: bareIn };
  yield { figure: 'backup-import-copied', value: copied.seconds, ...time, reference: bareIn };
  const memory = { unit: 'MB that the page and its workers have for themselves', better: 'lower' } as const;
  const exportMb = exported.peakMb;
  const importMb = Math.max(checked.peakMb, merged.peakMb, copied.peakMb);
  if (exportMb > 0) yield { figure: 'backup-export-memory', value: exportMb, ...memory, target: 300 };
  if (importMb > 0) yield { figure: 'backup-import-memory', value: importMb, ...memory, target: 300 };
  const added = { unit: 'MB more than the page had before', better: 'lower' } as const;
  if (exportMb > 0)
    yield { figure: 'backup-export-memory-added', value: exportMb - exported.idleMb, ...added };
  if (importMb > 0)
    yield { figure: 'backup-import-memory-added', value: importMb - checked.idleMb, ...added };
  const longest = [checked, merged, copied, exported].map(({ longestTaskMs }) => longestTaskMs);
  yield {
    ...{ figure: 'backup-longest-task', value: Math.max(...longest), better: 'lower', target: 100 },
    unit: "ms of the page's own thread; 0: none of more than 50",
  };
}
