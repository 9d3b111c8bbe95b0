import type { Page } from 'playwright';
import { builtApp, builtBarePage, PHONE, slowDown, withBuild } from '../built-app';
import type { Figure } from '../figure';

const DESKTOP = { width: 1280, height: 800 };
const WITHIN = { timeout: 60_000 };
/** Long enough after a screen is usable for what is still on its way: a plan, a chart, a fold of the log. */
const SETTLED_MS = 2500;

/**
 * The sum of all shifts that no touch had caused (W3C Incubator, Layout Instability). As text: the loader of this file
 * would put calls to a helper of its own into it.
 */
const NOTE_SHIFTS = `
  window.shifted = { sum: 0, what: [] };
  new PerformanceObserver((list) => {
    for (const { value, hadRecentInput, sources } of list.getEntries()) {
      if (hadRecentInput) continue;
      window.shifted.sum += value;
      for (const { node } of sources) window.shifted.what.push(node?.className || node?.nodeName || 'gone');
    }
  }).observe({ type: 'layout-shift', buffered: true });
`;

interface Shifted {
  sum: number;
  what: string[];
}

declare global {
  interface Window {
    shifted: Shifted;
  }
}

async function shiftOf(page: Page, address: string): Promise<Shifted> {
  await page.goto(address);
  await page.locator('main').first().waitFor(WITHIN);
  await page.waitForTimeout(SETTLED_MS);
  return page.evaluate(() => window.shifted);
}

async function slowPage(page: Page, size: typeof PHONE): Promise<void> {
  await page.addInitScript({ content: NOTE_SHIFTS });
  await page.setViewportSize(size);
  await slowDown(page);
}

/** The worst screen of the app with the demo book: each is opened by its address, and nothing on it is touched. */
async function worstShift(folder: string, size: typeof PHONE): Promise<Shifted & { screen: string }> {
  return withBuild(folder, async (context, url) => {
    const page = await context.newPage();
    await page.goto(`${url}/`);
    await page.getByRole('button', { name: /demo/ }).click();
    await page.locator('main[data-usable] li').first().waitFor(WITHIN);
    await page.goto(`${url}/tunes/`);
    const link = page.locator('a[href^="/tune/?"]').first();
    const tune = (await link.getAttribute('href', WITHIN)) ?? '/tunes/';
    await slowPage(page, size);
    let worst = { screen: '', sum: 0, what: [] as string[] };
    for (const screen of ['/', '/tunes/', tune, '/progress/', '/settings/', '/add/', '/words/']) {
      const shifted = await shiftOf(page, url + screen);
      console.error(
        size.width,
        screen.split('?')[0],
        shifted.sum.toFixed(4),
        [...new Set(shifted.what)].join(', '),
      );
      if (shifted.sum >= worst.sum) worst = { screen, ...shifted };
    }
    return worst;
  });
}

/** How much of a screen moves by itself while it is opened, with the processor slowed to a phone's. */
export async function* measure(): AsyncIterable<Figure> {
  const bareFolder = builtBarePage();
  const bare = await withBuild(bareFolder, async (context, url) => {
    const page = await context.newPage();
    await slowPage(page, PHONE);
    return shiftOf(page, `${url}/`);
  });
  for (const [name, size] of [
    ['phone', PHONE],
    ['desktop', DESKTOP],
  ] as const) {
    const { sum } = await worstShift(builtApp(), size);
    yield {
      ...{ figure: `layout-shift-${name}`, value: Math.round(sum * 10_000) / 10_000 },
      ...{ unit: 'score of the worst screen at 4x CPU', better: 'lower', target: 0 },
      reference: { name: 'bare SvelteKit page', value: Math.round(bare.sum * 10_000) / 10_000 },
    };
  }
}
