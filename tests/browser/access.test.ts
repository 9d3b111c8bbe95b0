import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { sideways, violations } from './axe';
import { DESKTOP, openApp, PHONE, type OpenApp } from './harness';
import { addTune, begin, button, formTile, isUsable, readKept, SLOW, soon, touch, wordIs } from './learner';

/** Looks at one state of one screen, light and dark, narrow and wide; what is found is gathered, not thrown at once. */
async function look(page: Page, state: string, found: string[]): Promise<void> {
  // nothing but colours depends on the scheme, and no colour on the width
  const ways = [
    ['dark', PHONE, 'colours'],
    ['light', PHONE, 'all'],
    ['light', DESKTOP, 'all'],
  ] as const;
  for (const [colorScheme, size, rules] of ways) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await page.setViewportSize(size);
    for (const fault of await violations(page, rules))
      found.push(`${state}, ${colorScheme}, ${String(size.width)} wide: ${fault}`);
  }
  for (const fault of await sideways(page)) found.push(`${state}: scrolls sideways by ${fault}`);
  await page.setViewportSize(PHONE);
}

const go = async ({ page, url }: OpenApp, path: string) => {
  await page.goto(url + path);
  await isUsable(page);
};

test('nothing is found on the screens of an empty book, in the form, and in the settings', async () => {
  const found: string[] = [];
  const app = await openApp();
  const { page } = app;
  await isUsable(page);
  await look(page, 'Today, empty', found);
  await go(app, '/tunes/');
  await look(page, 'Tunes, empty', found);
  await go(app, '/progress/');
  await look(page, 'Progress, empty', found);
  await go(app, '/tune/?id=none');
  await look(page, 'Tune, not in the book', found);
  await go(app, '/why/?passage=none');
  await look(page, 'Why, not in the book', found);
  await go(app, '/tuning/?tune=none');
  await look(page, 'Tuning, not in the book', found);
  await go(app, '/drill/?passage=none');
  await look(page, 'Drill, not in the book', found);

  await go(app, '/add/');
  await look(page, 'Add', found);
  await page.getByRole('radio', { name: 'other' }).first().check();
  await page.getByRole('radio', { name: 'other' }).last().check();
  await page.getByLabel(/^Form, in the order/).fill('');
  await page.getByText('Key, capo, pickup').click();
  await page.getByText('Paste typed tab').click();
  await page.getByLabel('Typed tab').fill(readFileSync('tests/fixtures/tab/half-readable/input.txt', 'utf8'));
  await page.getByLabel('Title').fill('');
  await formTile(page, 'A1').click();
  await button(page, /^Keep this tune/).click();
  await page.locator('[aria-invalid=true]').first().waitFor(SLOW);
  await look(page, 'Add, with problems', found);

  await go(app, '/take/');
  await look(page, 'Take a tune, empty', found);
  await go(app, '/words/');
  await page.keyboard.press('?');
  await page.getByRole('heading', { name: 'Keys' }).waitFor(SLOW);
  await look(page, 'Words, with the keys over it', found);
  await page.keyboard.press('Escape');
  await look(page, 'Words', found);
  await go(app, '/privacy/');
  await look(page, 'Privacy', found);

  await go(app, '/settings/');
  await button(page, /^Erase everything/).click();
  const file = {
    name: 'cut.json',
    mimeType: 'application/json',
    buffer: Buffer.from('{"cut'),
  };
  await page.locator('input[type=file]').setInputFiles(file);
  await page.getByText('Nothing was changed.').waitFor(SLOW);
  await look(page, 'Settings, asking and refusing', found);
  expect(found).toEqual([]);
}, 300_000);

test('nothing is found on the screens of a full book', async () => {
  const found: string[] = [];
  const app = await openApp();
  const { page } = app;
  await button(page, 'Try it with the demo tunes').click();
  await page.locator('.plan ol li').first().waitFor(SLOW);
  await look(page, 'Today', found);
  await page.locator('[data-line]').nth(1).click();
  await button(page, 'Something else instead').click();
  await page.locator('.others button').first().waitFor(SLOW);
  await look(page, 'Today, a line open', found);
  await button(page, 'Not today').click();
  await page.getByText(/^Left out by you/).waitFor(SLOW);
  await button(page, 'One more new thing').click();
  await page.getByText(/^You asked for one more new thing/).waitFor(SLOW);
  await page.getByText('What waits, and why').click();
  await look(page, 'Today, steered', found);
  const key = await page.locator('[data-line]').first().getAttribute('data-line');
  await go(app, `/why/?passage=${key ?? ''}`);
  await page.getByText('As a table').click();
  await look(page, 'Why', found);
  await go(app, '/tunes/');
  await page.locator('.list .soft:not(:empty)').first().waitFor(SLOW);
  await look(page, 'Tunes', found);
  const { tunes } = await readKept(page);
  const RUSTY = 'Cluck Old Hen';
  for (const title of ['Crooked Hen on the Mill Stair', RUSTY]) {
    const id = tunes.find((tune) => tune.title === title)?.id ?? '';
    await go(app, `/tune/?id=${id}`);
    await look(page, `Tune ${title}`, found);
    // what can be done with a tune looks the same for each
    if (title === RUSTY) continue;
    await button(page, /^Delete$/).click();
    await button(page, 'Delete it').waitFor(SLOW);
    await look(page, `Tune ${title}, asking`, found);
    await go(app, `/tune/?id=${id}`);
    await button(page, 'How it sounds').click();
    await look(page, `Tune ${title}, how it sounds`, found);
    await go(app, `/tuning/?tune=${id}`);
    await button(page, /^3rd string/).click();
    await look(page, `Tuning up for ${title}`, found);
    await go(app, `/edit/?id=${id}`);
    await look(page, `Edit ${title}`, found);
  }
  await go(app, '/progress/');
  await page.locator('.chart canvas').waitFor(SLOW);
  await page.locator('.repertoire-chart canvas').waitFor(SLOW);
  await page.getByText(/^In these eight weeks: \d+ minutes on measures/).waitFor(SLOW);
  for (const summary of await page.getByText('As a table').all()) await summary.click();
  await look(page, 'Progress', found);
  await go(app, `/hand-on/?id=${String(tunes[0]?.id)}`);
  const link = await page.getByLabel(/^The link/).inputValue();
  await look(page, 'Hand on a tune', found);
  await page.goto(link);
  await page.locator('.dock .next').waitFor(SLOW);
  await look(page, 'A tune handed on', found);
  await go(app, '/settings/');
  await soon(() => page.locator('.holds').innerText()).toMatch(/passes/);
  await look(page, 'Settings', found);
  expect(found).toEqual([]);
}, 300_000);

test('nothing is found in a drill, from the look to the end', async () => {
  const found: string[] = [];
  const app = await openApp({ path: '/settings/', hasTouch: true });
  const { page, url } = app;
  await page.getByRole('radio', { name: 'wait for me' }).check();
  await soon(async () => (await readKept(page)).settings.map(({ key }) => key)).toContain('breath');
  await go(app, '/add/');
  await page.getByText('Paste typed tab').click();
  const text = readFileSync('sample-data/tunes/old-joe-clark.txt', 'utf8');
  await page.getByLabel('Typed tab').fill(text.slice(text.indexOf('A part')));
  await page.getByText(/With its tab/).waitFor(SLOW);
  await addTune(page, { title: 'Old Joe Clark' });
  await wordIs(page, /look/);
  await look(page, 'Drill, the look', found);
  await button(page, 'Sound').click();
  await page.getByRole('switch', { name: 'Silent bars' }).click();
  await look(page, 'Drill, what sounds', found);
  await page.getByRole('switch', { name: 'Silent bars' }).click();
  await page.getByRole('radio', { name: 'over and over' }).check();
  await button(page, 'Sound').click();
  await button(page, 'Hear it').click();
  await wordIs(page, /^listen$/);
  await look(page, 'Drill, hearing it', found);
  await begin(page);
  await page.locator('.drill.breathing').waitFor(SLOW);
  await look(page, 'Drill, the breath', found);
  await touch(page);
  await wordIs(page, /^pass \d/);
  await button(page, 'Pause').click();
  await wordIs(page, /^paused$/);
  await look(page, 'Drill, paused', found);
  await button(page, 'End').click();
  await page.getByText(/came out clean/).waitFor(SLOW);
  await look(page, 'Drill, the end', found);

  const [tune] = (await readKept(page)).tunes;
  const layer = tune?.layers[0]?.id ?? '';
  // the whole tune at 30 beats a minute sounds for two minutes
  await page.goto(`${url}/drill/?passage=tune:${tune?.id ?? ''}:${layer}&from=30&minutes=20`);
  await begin(page);
  await wordIs(page, /^pass \d/);
  await look(page, 'Drill, the pass', found);
  await wordIs(page, /^pass \d/);
  const second = await app.context.newPage();
  await second.goto(page.url());
  await second.getByText('A drill is open in another tab').waitFor(SLOW);
  await look(second, 'Drill, open in another tab', found);
  expect(found).toEqual([]);
}, 300_000);

test('the surface of a drill is on the screen, however long the passage', async () => {
  const { page, url } = await openApp({ path: '/add/' });
  await page.getByText('Paste typed tab').click();
  const text = readFileSync('sample-data/tunes/old-joe-clark.txt', 'utf8');
  await page.getByLabel('Typed tab').fill(text.slice(text.indexOf('A part')));
  await page.getByText(/With its tab/).waitFor(SLOW);
  await addTune(page, { title: 'Old Joe Clark' });
  const [tune] = (await readKept(page)).tunes;
  const names = `${tune?.id ?? ''}:${tune?.layers[0]?.id ?? ''}`;
  for (const passage of [`part:${names}:A`, `tune:${names}`]) {
    await page.goto(`${url}/drill/?passage=${passage}`);
    for (const size of [{ width: 320, height: 568 }, PHONE, { width: 844, height: 390 }, DESKTOP]) {
      await page.setViewportSize(size);
      const box = await page.locator('.touch').boundingBox(SLOW);
      const inSight = size.height - (box?.y ?? Infinity);
      const place = `${passage} at ${String(size.width)} x ${String(size.height)}`;
      expect(inSight, place).toBeGreaterThan(size.height / 4);
    }
  }
});

test('a title of 200 letters and parts of 40 measures scroll no screen sideways', async () => {
  const found: string[] = [];
  const app = await openApp({ path: '/add/', hasTouch: true });
  const { page } = app;
  const at = async (state: string) => {
    for (const fault of await sideways(page)) found.push(`${state}: ${fault}`);
  };
  await isUsable(page);
  for (const part of ['A', 'B']) {
    const count = page.getByLabel(`Measures in part ${part}`, { exact: true });
    await count.fill('40');
    await count.press('Tab');
  }
  await page.getByLabel('Title').fill('Q'.repeat(200));
  await at('Add');
  await addTune(page, { title: 'Q'.repeat(200), goal: 200 });
  await at('Drill, the look');
  await begin(page);
  await page.locator('.drill.breathing').waitFor(SLOW);
  await touch(page);
  await soon(async () => (await readKept(page)).passes.length).toBeGreaterThan(0);
  await button(page, 'End').click();
  await page.getByText(/came out clean/).waitFor(SLOW);
  await at('Drill, the end');
  const [tune] = (await readKept(page)).tunes;
  const id = tune?.id ?? '';
  const drilled = `figure:${id}:${tune?.figures[0]?.id ?? ''}`;
  for (const path of [
    '/',
    '/tunes/',
    `/tune/?id=${id}`,
    `/edit/?id=${id}`,
    `/progress/?id=${id}`,
    `/why/?passage=${drilled}`,
    `/tuning/?tune=${id}`,
  ]) {
    await go(app, path);
    await at(path);
  }
  await go(app, `/tune/?id=${id}`);
  expect(await page.locator('[data-cell]').count()).toBe(80);
  await button(page, /^Delete$/).click();
  await button(page, 'Delete it').waitFor(SLOW);
  await at('Tune, asking');
  await button(page, 'Delete it').click();
  await page.waitForURL(/\/tunes\//, SLOW);
  await go(app, '/settings/');
  await button(page, /^Bring it back/).waitFor(SLOW);
  await at('Settings, with a deleted tune');
  expect(found).toEqual([]);
}, 300_000);

test('with text of 200 % nothing is found, and nothing scrolls sideways (WCAG 2.2, 1.4.4 and 1.4.10)', async () => {
  const found: string[] = [];
  const app = await openApp();
  const { page } = app;
  await button(page, 'Try it with the demo tunes').click();
  await page.locator('.plan ol li').first().waitFor(SLOW);
  const { tunes } = await readKept(page);
  const id = tunes.find(({ title }) => title === 'Old Joe Clark')?.id ?? '';
  const figure = tunes.find((tune) => tune.id === id)?.figures[0]?.id ?? '';
  for (const path of [
    ...['/', '/tunes/', `/tune/?id=${id}`, '/progress/', '/settings/', '/add/'],
    ...[`/measure/?tune=${id}`, `/drill/?passage=figure:${id}:${figure}`],
  ]) {
    await go(app, path);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '200%';
    });
    for (const fault of await violations(page, 'all')) found.push(`${path}: ${fault}`);
    for (const fault of await sideways(page, [PHONE.width]))
      found.push(`${path}: scrolls sideways by ${fault}`);
  }
  expect(found).toEqual([]);
}, 120_000);
