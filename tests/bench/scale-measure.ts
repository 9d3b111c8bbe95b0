import type { BrowserContext, Page } from 'playwright';
import type { BIG } from './big-book';
import { privateMb } from './process-memory';
import { PHONE_SLOWDOWN } from './built-app';
import type { ScaleBook } from './scale-book';
import type { BareReads, BareWrites } from './scale-page/bare';

/** What one book was measured at. */
export interface Scale {
  rebuilds: Rebuild[];
  /** On this machine's processor. */
  starts: Start[];
  /** On a phone's. */
  slowStarts: Start[];
  written: { passes: number[]; sealMs: number };
  bare: BareReads;
  bareWritten: BareWrites;
}

interface Rebuild {
  /** Of Today, while the log is folded. */
  usableMs: number;
  foldMs: number;
  /** The longest task of the page meanwhile. */
  longestMs: number;
}

interface Start {
  usableMs: number;
  plannedMs: number;
  openMs: number;
  tunesMs: number;
  tuneMs: number;
  progressMs: number;
  planMs: number;
  longestMs: number;
  /** `null` where the system does not tell. */
  memoryMb: number | null;
}

const STARTS = 3;
const REBUILDS = 2;
const PASSES = 150;

export async function measureBook(book: ScaleBook, size: typeof BIG, storeUrl: string): Promise<Scale> {
  const say = (what: string): void => console.error(`${size.tunes} tunes: ${what}`);
  say('writing the book');
  await book.fill(size);
  const rebuilds: Rebuild[] = [];
  while (rebuilds.length < REBUILDS) {
    say('folding the log');
    if (rebuilds.length > 0) await book.aside((page) => page.evaluate(() => scalePage.spoilFold()));
    rebuilds.push(await book.open(PHONE_SLOWDOWN, rebuilt));
  }
  const [starts, slowStarts]: [Start[], Start[]] = [[], []];
  while (starts.length < STARTS) {
    say('starting');
    starts.push(await book.open(1, walkThrough));
    slowStarts.push(await book.open(PHONE_SLOWDOWN, walkThrough));
  }
  say('writing passes');
  const rest = await book.aside(async (page) => ({
    bare: await page.evaluate(() => scalePage.bareReads()),
    bareWritten: await page.evaluate((passes) => scalePage.bareWrites(passes), PASSES),
    written: await page.evaluate(([url, passes]) => scalePage.play(url, passes), [storeUrl, PASSES] as const),
  }));
  return { rebuilds, starts, slowStarts, ...rest };
}

/** After the fold has been kept, for the starts to come. */
async function rebuilt(page: Page): Promise<Rebuild> {
  await page.waitForFunction(() => scaleWatch.asked.some(({ verb }) => verb === 'keepFor'));
  const { usableMs, asked, tasks } = await page.evaluate(() => scaleWatch);
  const { at = NaN, ms = NaN } = asked.find(({ verb }) => verb === 'fold') ?? {};
  const meanwhile = tasks.filter((task) => task.at >= at && task.at <= at + ms).map((task) => task.ms);
  return { usableMs: usableMs ?? NaN, foldMs: ms, longestMs: Math.max(0, ...meanwhile) };
}

const MIDDLE = '.list li:nth-child(251) a, .list li:nth-child(6):nth-last-child(5) a';

async function walkThrough(page: Page, context: BrowserContext): Promise<Start> {
  const { usableMs, plannedMs } = await page.evaluate(() => scaleWatch);
  const walkedFrom = await page.evaluate(() => performance.now());
  const reach = (touched: string, shown: string): Promise<number> =>
    page.evaluate(([link, sign]) => scaleWatch.reach(link, sign), [touched, shown] as const);
  const tunesMs = await reach('nav a[href="/tunes/"]', '.list .entry-what .soft');
  await page.waitForSelector(MIDDLE);
  const tuneMs = await reach(MIDDLE, '.dock .picked p:not(:empty)');
  const progressMs = await reach('nav a[href="/progress/"]', '[data-usable] .chart canvas');
  await reach('nav a[href="/"]', '#hands');
  await page.selectOption('#hands', 'tired');
  await page.waitForFunction(() => scaleWatch.asked.filter(({ verb }) => verb === 'plan').length > 1);
  const { asked, tasks } = await page.evaluate(() => scaleWatch);
  const after = tasks.filter(({ at }) => at >= walkedFrom).map(({ ms }) => ms);
  const msOf = (name: string): number => asked.findLast(({ verb }) => verb === name)?.ms ?? NaN;
  return {
    ...{ usableMs: usableMs ?? NaN, plannedMs: plannedMs ?? NaN, tunesMs, tuneMs, progressMs },
    ...{ openMs: msOf('open'), planMs: msOf('plan'), longestMs: Math.max(0, ...after) },
    memoryMb: await ownMemory(page, context),
  };
}

/** What the process of the page has in memory for itself alone, after a collection: its threads, their heaps and the engine. */
async function ownMemory(page: Page, context: BrowserContext): Promise<number | null> {
  const session = await context.newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const browser = await context.browser()?.newBrowserCDPSession();
  const { processInfo = [] } = (await browser?.send('SystemInfo.getProcessInfo')) ?? {};
  const sizes = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => privateMb(id));
  return sizes.includes(null) || sizes.length === 0 ? null : Math.max(...sizes.map((size) => size ?? 0));
}
