import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright';
import { findBrowser, LAUNCH } from './browser.js';
import { giveUp, ROOT } from './prepare.js';

/** `inset` leaves room for the circle that a launcher may cut: its radius is 2/5 of the side (W3C app manifest). */
const ICONS = [
  { file: 'icon-32.png', side: 32, inset: 0 },
  { file: 'icon-180.png', side: 180, inset: 0 },
  { file: 'icon-192.png', side: 192, inset: 0 },
  { file: 'icon-512.png', side: 512, inset: 0 },
  { file: 'icon-512-maskable.png', side: 512, inset: 0.1 },
];
const WALNUT = '#382215';

const folder = path.join(ROOT, 'static', 'icons');
const svg = readFileSync(path.join(folder, 'icon.svg'), 'utf8');
const executablePath = findBrowser() ?? giveUp('No Chromium found to draw the icons with.');
const browser = await chromium.launch({ ...LAUNCH, executablePath });
const page = await browser.newPage();
for (const { file, side, inset } of ICONS) {
  await page.setViewportSize({ width: side, height: side });
  await page.setContent(
    `<style>body{margin:0;background:${WALNUT}}svg{display:block;padding:${String(side * inset)}px;box-sizing:border-box}` +
      `svg{width:${String(side)}px;height:${String(side)}px}</style>${svg}`,
  );
  writeFileSync(path.join(folder, file), await page.screenshot());
}
await browser.close();
console.log(`Drew ${String(ICONS.length)} icons into static/icons.`);
