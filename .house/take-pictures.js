import path from 'node:path';
import { chromium } from 'playwright';
import { findBrowser, LAUNCH } from './browser.js';
import { giveUp, ROOT } from './prepare.js';
import { serveApp } from './serve.js';

/** The README's pictures, of the built app with the demo book in it. */
const folder = path.join(ROOT, 'sample-data', 'pictures');
const executablePath = findBrowser() ?? giveUp('No Chromium found to take the pictures with.');
const app = await serveApp({ folder: path.join(ROOT, 'build'), port: 0 });
const browser = await chromium.launch({ ...LAUNCH, executablePath });
const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
/** @param {string} name */
const picture = (name) => page.screenshot({ path: path.join(folder, `${name}.png`), animations: 'disabled' });

await page.goto(app.url);
await page.getByRole('button', { name: 'Try it with the demo tunes' }).click();
await page.locator('.plan ol li').first().waitFor();
await picture('today');
await page.goto(`${app.url}/tunes/`);
await page.getByRole('link', { name: 'Old Joe Clark' }).click();
await page.locator('[data-cell]').nth(2).waitFor();
await picture('tune');
await page.locator('[data-cell]').nth(2).click();
await page.locator('.dock .next').click();
await page.locator('.touch').click();
await page.locator('.drill.breathing').waitFor();
await page.locator('.touch').click();
await picture('drill');
await browser.close();
await app.close();
console.log('Took 3 pictures into sample-data/pictures.');
