import type { Page } from 'playwright';
import { builtBenchPage, withBuild } from './built-app';
import type { ClickBench } from './click-page/main';

declare global {
  interface Window {
    clickBench: ClickBench;
  }
}

/** Opens the page in Chromium; a touch has been made, so it may sound. */
export async function withClickPage<T>(use: (page: Page) => Promise<T>): Promise<T> {
  return withBuild(builtBenchPage('tab-page'), async (context, url) => {
    const page = await context.newPage();
    await page.goto(`${url}/`);
    await page.waitForFunction(() => 'clickBench' in window);
    await page.mouse.click(10, 10);
    return use(page);
  });
}
