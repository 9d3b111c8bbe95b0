import { spawnSync } from 'node:child_process';
import { copyFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright';
import { ROOT } from '../../.house/prepare.js';
import { withBuild } from './built-app';
import type { ClickBench } from './click-page/main';

declare global {
  interface Window {
    clickBench: ClickBench;
  }
}

/** Builds the page that measures the click, and where it lies. */
function builtClickPage(): string {
  const vite = path.join(ROOT, 'node_modules/vite/bin/vite.js');
  const config = path.join(ROOT, 'tests/bench/click-page/vite.config.js');
  const { status, stdout, stderr } = spawnSync(process.execPath, [vite, 'build', '--config', config], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`The page of the click does not build:\n${stdout}${stderr}`);
  const folder = path.join(ROOT, '.cache/click-page');
  copyFileSync(path.join(folder, 'index.html'), path.join(folder, '404.html'));
  return folder;
}

/** Opens the page in Chromium; a touch has been made, so it may sound. */
export async function withClickPage<T>(use: (page: Page) => Promise<T>): Promise<T> {
  return withBuild(builtClickPage(), async (context, url) => {
    const page = await context.newPage();
    await page.goto(`${url}/`);
    await page.waitForFunction(() => 'clickBench' in window);
    await page.mouse.click(10, 10);
    return use(page);
  });
}
