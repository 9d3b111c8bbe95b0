import type { Page } from 'playwright';
import { builtApp, builtBarePage, slowDown, withBuild } from '../built-app';
import { type Figure, median } from '../figure';

/** Fewer than a drill needs to be sure of a passage, for then it ends. */
const MARKS = 10;
/** Marks before these are the engine's: nothing of the drill has been compiled yet. */
const WARM = 2;
const WITHIN = { timeout: 60_000 };

/**
 * Notes for each touch the time from the system's event to the next frame, as Event Timing tells it (W3C, Event Timing API;
 * rounded to 8 ms by the standard). As text: the loader of this file would put calls to a helper of its own into it.
 */
const NOTE_TOUCHES = `
  window.touchMs = [];
  const longest = new Map();
  new PerformanceObserver((list) => {
    for (const { interactionId, duration } of list.getEntries()) {
      if (interactionId > 0) longest.set(interactionId, Math.max(duration, longest.get(interactionId) ?? 0));
    }
    window.touchMs = [...longest.values()];
  }).observe({ type: 'event', durationThreshold: 16, buffered: true });
`;

declare global {
  interface Window {
    touchMs: number[];
  }
}

/** Touches that took less than the standard tells of are counted as what it tells at the least. */
async function told(page: Page, touches: number): Promise<number[]> {
  await page.waitForTimeout(500);
  const times = (await page.evaluate(() => window.touchMs)).slice(-touches);
  return [...times, ...Array<number>(Math.max(0, touches - times.length)).fill(16)];
}

/** Marks in breath after breath of a drill, each by one touch. */
async function markMs(folder: string): Promise<number[]> {
  return withBuild(folder, async (context, url) => {
    const page = await context.newPage();
    await page.addInitScript({ content: NOTE_TOUCHES });
    await page.goto(`${url}/add/`);
    await page.locator('main[data-usable]').waitFor(WITHIN);
    await page.getByLabel('Title').fill('Bench Tune');
    await page.getByLabel(/^Goal/).fill('300');
    await page.getByRole('button', { name: /^Keep this tune/ }).click();
    const surface = page.locator('main.drill .touch');
    await surface.waitFor(WITHIN);
    await slowDown(page);
    await surface.click();
    for (let mark = 0; mark < MARKS; mark += 1) {
      await page.locator('main.drill.breathing').waitFor(WITHIN);
      await surface.click();
      await page.locator('main.drill:not(.breathing)').waitFor(WITHIN);
    }
    return told(page, MARKS - WARM);
  });
}

/** The same touch on a page that does nothing but show it. */
async function bareMs(folder: string): Promise<number[]> {
  return withBuild(folder, async (context, url) => {
    const page = await context.newPage();
    await page.addInitScript({ content: NOTE_TOUCHES });
    await page.goto(`${url}/`);
    await page.locator('main').waitFor(WITHIN);
    await page.evaluate(() => {
      let count = 0;
      document.addEventListener('click', () => {
        count += 1;
        document.querySelector('h1')?.replaceChildren(String(count));
      });
    });
    await slowDown(page);
    for (let touch = 0; touch < MARKS; touch += 1) {
      await page.mouse.click(200, 400);
      await page.waitForTimeout(100);
    }
    return told(page, MARKS - WARM);
  });
}

/** From a touch that marks a pass to the frame that shows it, with the processor slowed to a phone's. */
export async function* measure(): AsyncIterable<Figure> {
  const marks = await markMs(builtApp());
  const bare = await bareMs(builtBarePage());
  console.error('marks', marks.join(' '), '| bare', bare.join(' '));
  const common = { unit: 'ms at 4x CPU, in steps of 8', better: 'lower', target: 50 } as const;
  const reference = (value: number) => ({ name: 'a bare SvelteKit page that shows the touch', value });
  yield { figure: 'mark-paint', value: median(marks), ...common, reference: reference(median(bare)) };
  yield {
    ...{ figure: 'mark-paint-slowest', value: Math.max(...marks), ...common },
    reference: reference(Math.max(...bare)),
  };
}
