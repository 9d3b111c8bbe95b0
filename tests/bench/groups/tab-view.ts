import type { Page } from 'playwright';
import { builtBenchPage, PHONE, slowDown, withBuild } from '../built-app';
import { type Figure, median } from '../figure';
import type { TabTimes } from '../tab-page/main';

const MEASURES = 40;
const RUNS = 15;

/** The first drawing, which the engine has not compiled yet, and the median of those after it. */
async function draw(page: Page, compact: boolean): Promise<{ first: TabTimes; later: TabTimes }> {
  const times = await page.evaluate(
    ([measures, runs, isCompact]) =>
      Array.from({ length: runs }, () => window.tabBench.draw(measures, isCompact)),
    [MEASURES, RUNS, compact] as const,
  );
  console.error(compact ? 'desktop' : 'phone', times.map(({ drawn }) => drawn.toFixed(1)).join(' '));
  const [first = { drawn: NaN, parsed: NaN }, ...later] = times;
  const middle = {
    drawn: median(later.map(({ drawn }) => drawn)),
    parsed: median(later.map(({ parsed }) => parsed)),
  };
  return { first, later: middle };
}

const round = (ms: number): number => Math.round(10 * ms) / 10;

/** Forty measures of tab, on a phone and as a whole tune on a desktop page, with the processor slowed to a phone's. */
export async function* measure(): AsyncIterable<Figure> {
  const sizes = [
    { name: 'phone', size: PHONE, compact: false },
    { name: 'desktop', size: { width: 1280, height: 800 }, compact: true },
  ];
  const folder = builtBenchPage('tab-page');
  for (const { name, size, compact } of sizes) {
    const { first, later } = await withBuild(folder, async (context, url) => {
      const page = await context.newPage();
      await page.setViewportSize(size);
      await slowDown(page);
      await page.goto(`${url}/`);
      await page.waitForFunction(() => 'tabBench' in window);
      return draw(page, compact);
    });
    const common = { unit: 'ms at 4x CPU', better: 'lower', target: 50 } as const;
    const reference = (value: number) => ({ name: 'the same markup, parsed', value: round(value) });
    yield {
      ...{ figure: `tab-view-${name}`, value: round(later.drawn), ...common },
      reference: reference(later.parsed),
    };
    yield {
      ...{ figure: `tab-view-${name}-first`, value: round(first.drawn), ...common },
      reference: reference(first.parsed),
    };
  }
}
