import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright';
import { findBrowser, LAUNCH } from './browser.js';
import { CACHE, ensureBuilt, giveUp, ROOT } from './prepare.js';
import { serveApp } from './serve.js';

/**
 * Every screen and state of the built app at four sizes, light and dark, each size and scheme on one sheet to look at:
 * `npm run contact-sheet [-- NAME [WIDTH]]`, with a name only the states whose names hold it, with a width only that size.
 */
const FOLDER = path.join(CACHE, 'contact-sheet');
const SIZES = [
  [390, 844],
  [844, 390],
  [820, 1180],
  [1280, 800],
];
const WAIT = { timeout: 20_000 };

const row = 'G2AB|c2BA|G2DE|G2A2|'.repeat(5);
/** A long title and forty measures, and a tune without any. */
const LONG = `X:1
T:The Very Long Winter Well of the Miller's Youngest Daughter, as Played on the Far Side of the Hill
M:2/4
L:1/8
K:G
|:${row}
${row}:|

X:2
T:Crooked Low Water
M:3/4
L:1/4
K:Ador
|:ABc|d2A|[M:4/4]GABc|A3:|
`;

/** @typedef {import('playwright').Page} Page */
/** @typedef {{ name: string, reach: (page: Page, url: string) => Promise<void> }} State */

/** @param {Page} page */
const usable = (page) => page.locator('main[data-usable]').waitFor(WAIT);

/**
 * @param {string} name
 * @param {string} where
 * @param {(page: Page) => Promise<void>} [go]
 * @returns {State}
 */
const screen = (name, where, go = async () => undefined) => ({
  name,
  reach: async (page, url) => {
    await page.goto(url + where);
    await usable(page);
    await go(page);
  },
});

/** @param {string} title */
const openTune = (title) => async (/** @type {Page} */ page) => {
  await page.getByRole('link', { name: title }).first().click();
  await page.locator('[data-cell]').nth(2).waitFor(WAIT);
};

/** @param {number} cell */
const pick = (cell) => async (/** @type {Page} */ page) => {
  await openTune('Old Joe Clark')(page);
  await page.locator('[data-cell]').nth(cell).click();
  await page.locator('.dock .next').waitFor(WAIT);
};

/** @param {Page} page */
async function beginDrill(page) {
  await pick(2)(page);
  await page.locator('.dock .next').click();
  await page.locator('main.drill').waitFor(WAIT);
}

/** @param {Page} page */
const chooseFile = (page) =>
  page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'tunes.abc', mimeType: 'text/vnd.abc', buffer: Buffer.from(LONG) });

/** In the order of a first visit: the book is empty at first, then holds the demo. @type {State[]} */
const STATES = [
  screen('today-empty', '/'),
  screen('tunes-empty', '/tunes/'),
  screen('progress-empty', '/progress/'),
  screen('add', '/add/'),
  screen('add-picker', '/add/', async (page) => {
    await chooseFile(page);
    await page.getByText('Crooked Low Water').first().waitFor(WAIT);
  }),
  screen('add-titles', '/add/', async (page) => {
    await page.getByText('Several by their titles').click();
    await page.getByLabel('The list, one a line').fill('1. Tin Lantern\n2. Sandy Boys\n');
    await page.getByText(/^Keep these/).waitFor(WAIT);
  }),
  screen('tune-missing', '/tune/?id=none'),
  screen('today', '/', async (page) => {
    await page.getByRole('button', { name: 'Try it with the demo tunes' }).click();
    await page.locator('.plan ol li').first().waitFor(WAIT);
  }),
  {
    // goes on from the plan of the state before
    name: 'today-line',
    reach: async (page) => page.locator('[data-line]').nth(1).click(),
  },
  screen('why', '/', async (page) => {
    await page.locator('[data-line]').first().click();
    const key = (await page.locator('[data-line]').first().getAttribute('data-line')) ?? '';
    await page.goto(new URL(`/why/?passage=${key}`, page.url()).href);
    await usable(page);
  }),
  screen('tunes', '/tunes/', (page) => page.locator('.list .soft:not(:empty)').first().waitFor(WAIT)),
  screen('tunes-by-tuning', '/tunes/', (page) => page.getByLabel('By tuning, for a jam').check()),
  screen('tunes-none-found', '/tunes/', (page) => page.getByLabel('Find', { exact: true }).fill('nothing')),
  screen('tune', '/tunes/', openTune('Old Joe Clark')),
  screen('tune-picked', '/tunes/', pick(2)),
  screen('measure', '/tunes/', async (page) => {
    await pick(2)(page);
    await page.getByRole('link', { name: 'Write this measure' }).click();
    await page.locator('main.writing').waitFor(WAIT);
  }),
  screen('edit', '/tunes/', async (page) => {
    await openTune('Old Joe Clark')(page);
    await page.getByRole('link', { name: /^Edit/ }).first().click();
    await usable(page);
  }),
  screen('hand-on', '/tunes/', async (page) => {
    await openTune('Old Joe Clark')(page);
    await page.goto(page.url().replace('/tune/', '/hand-on/'));
    await page.getByLabel(/^The link/).waitFor(WAIT);
  }),
  {
    // goes on from the link of the state before
    name: 'take',
    reach: async (page) => {
      await page.goto(await page.getByLabel(/^The link/).inputValue());
      await page.locator('.dock .next').waitFor(WAIT);
    },
  },
  screen('take-empty', '/take/'),
  screen('drill-look', '/tunes/', beginDrill),
  screen('drill-pass', '/tunes/', async (page) => {
    await beginDrill(page);
    await page.locator('.touch').click();
    await page.locator('.drill .word', { hasText: /^pass/ }).waitFor(WAIT);
  }),
  screen('drill-breath', '/tunes/', async (page) => {
    await beginDrill(page);
    await page.locator('.touch').click();
    await page.locator('.drill.breathing').waitFor(WAIT);
    await page.locator('.touch').click();
  }),
  {
    // goes on from the drill, whose sitting it closes
    name: 'closing',
    reach: async (page) => {
      await page.getByRole('button', { name: 'End' }).click();
      await page.getByRole('button', { name: 'End the sitting' }).waitFor(WAIT);
    },
  },
  screen('progress', '/progress/', (page) => page.locator('.chart canvas').first().waitFor(WAIT)),
  screen('progress-end', '/progress/', async (page) => {
    await page.getByRole('heading', { name: 'Repertoire by month' }).waitFor(WAIT);
    for (const summary of await page.getByText('As a table').all()) await summary.click();
    await page.getByRole('heading', { name: 'Repertoire by month' }).scrollIntoViewIfNeeded();
  }),
  screen('report', '/report/', (page) => page.locator('.paper').waitFor(WAIT)),
  screen('practice-sheet', '/tunes/', async (page) => {
    await openTune('Old Joe Clark')(page);
    await page.goto(page.url().replace('/tune/', '/sheet/'));
    await page.locator('.paper').waitFor(WAIT);
  }),
  screen('settings', '/settings/'),
  screen('settings-backup', '/settings/', (page) =>
    page.getByRole('heading', { name: 'Backup' }).evaluate((heading) => heading.scrollIntoView()),
  ),
  screen('words', '/words/'),
  screen('privacy', '/privacy/'),
  screen('keys', '/words/', async (page) => {
    await page.keyboard.press('?');
    await page.getByRole('heading', { name: 'Keys' }).waitFor(WAIT);
  }),
  screen('tuning', '/tunes/', async (page) => {
    await openTune('Old Joe Clark')(page);
    await page.goto(page.url().replace('/tune/?id=', '/tuning/?tune='));
    await usable(page);
  }),
];

/**
 * @param {import('playwright').Browser} browser
 * @param {string} sheet
 * @param {{ name: string, file: string }[]} pictures
 */
async function writeSheet(browser, sheet, pictures) {
  const figures = pictures.map(({ name, file }) => {
    const data = readFileSync(file).toString('base64');
    return `<figure><img src="data:image/png;base64,${data}"><figcaption>${name}</figcaption></figure>`;
  });
  const style = `body{margin:8px;display:flex;flex-wrap:wrap;gap:12px;background:#888;font:14px sans-serif}
    figure{margin:0}img{display:block;zoom:.5}`;
  const page = await browser.newPage({ viewport: { width: 1660, height: 900 } });
  await page.setContent(`<style>${style}</style>${figures.join('')}`);
  await page.screenshot({ path: path.join(FOLDER, `${sheet}.png`), fullPage: true });
  await page.close();
}

ensureBuilt();
const executablePath = findBrowser() ?? giveUp('No Chromium found to take the pictures with.');
const [only = '', onlyWidth] = process.argv.slice(2);
rmSync(FOLDER, { recursive: true, force: true });
mkdirSync(FOLDER, { recursive: true });
const app = await serveApp({ folder: path.join(ROOT, 'build'), port: 0 });
const browser = await chromium.launch({ ...LAUNCH, executablePath });
for (const [width = 0, height = 0] of SIZES) {
  if (onlyWidth && String(width) !== onlyWidth) continue;
  for (const colorScheme of /** @type {const} */ (['light', 'dark'])) {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme });
    const page = await context.newPage();
    const pictures = [];
    for (const { name, reach } of STATES) {
      try {
        await reach(page, app.url);
      } catch (error) {
        console.log(`${name}, ${String(width)}, ${colorScheme}: ${String(error).slice(0, 200)}`);
      }
      if (!name.includes(only)) continue;
      const file = path.join(FOLDER, `${name}-${String(width)}-${colorScheme}.png`);
      writeFileSync(file, await page.screenshot({ animations: 'disabled' }));
      pictures.push({ name, file });
    }
    await context.close();
    await writeSheet(browser, `sheet-${String(width)}-${colorScheme}`, pictures);
  }
}
await browser.close();
await app.close();
console.log(`Every screen and state is in ${path.relative(ROOT, FOLDER)}.`);
