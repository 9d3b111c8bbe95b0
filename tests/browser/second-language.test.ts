import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { de } from '../../src/lib/texts/de';
import { sideways, violations } from './axe';
import { openApp, PHONE } from './harness';
import { touch, isUsable, readKept, SLOW, soon } from './learner';

/** Words that stand in English sentences and in no German one. */
const ENGLISH =
  /\b(the|of|is|are|and|your|with|not|this|it|to|for|at|from|you|tune|measure|pass|clean|goal|played|add|open|close|title|key)\b/i;

interface Named {
  title: string;
  layers: { name: string }[];
}

/** What learners have written themselves stays as it is: titles, names of layers, notes. */
async function written(page: Page): Promise<string[]> {
  const { tunes, sittings } = await readKept(page);
  const named = tunes as unknown as Named[];
  const words = named.flatMap(({ title, layers }) => [title, ...layers.map(({ name }) => name)]);
  const own = [...words, ...sittings.map(({ note }) => note)].filter((text) => text !== '');
  return own.toSorted((a, b) => b.length - a.length);
}

/** Every text of a page that is read or heard and looks like English, what is the learner's `own` aside. */
async function english(page: Page, own: readonly string[] = []): Promise<string[]> {
  const texts = await page.evaluate(() => {
    const found: string[] = [document.title];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      if (!node.parentElement?.closest('script, style, textarea')) found.push(node.textContent ?? '');
    }
    for (const element of document.querySelectorAll('*')) {
      for (const name of [
        'aria-label',
        'aria-description',
        'aria-valuetext',
        'placeholder',
        'alt',
        'title',
      ]) {
        const value = element.getAttribute(name);
        if (value) found.push(value);
      }
    }
    return found.map((text) => text.trim()).filter((text) => text !== '');
  });
  const without = (text: string) => own.reduce((left, word) => left.replaceAll(word, '…'), text);
  return [...new Set(texts)].filter((text) => ENGLISH.test(without(text)));
}

test('whoever reads German first is spoken to in German on every screen', async () => {
  const { page, url } = await openApp({ locale: 'de-AT', hasTouch: true });
  const found: string[] = [];
  let own: string[] = [];
  const look = async (path: string) => {
    for (const text of await english(page, own)) found.push(`${path}: ${text}`);
  };
  const go = async (path: string) => {
    await page.goto(url + path);
    await isUsable(page);
    await look(path);
  };
  await isUsable(page);
  await look('/');
  expect(await page.evaluate(() => document.documentElement.lang)).toBe('de');
  for (const path of ['/tunes/', '/progress/', '/add/', '/take/', '/words/', '/privacy/', '/settings/'])
    await go(path);
  for (const path of ['/tune/?id=none', '/why/?passage=none', '/tuning/?tune=none', '/drill/?passage=none']) {
    await go(path);
  }
  await go('/');
  await page.getByRole('button', { name: de.empty.demo }).click();
  await page.locator('.plan ol li').first().waitFor(SLOW);
  own = await written(page);
  await look('Today with a plan');
  await page.locator('[data-line]').nth(1).click();
  await look('Today, a line open');
  const key = (await page.locator('[data-line]').first().getAttribute('data-line')) ?? '';
  const { tunes } = await readKept(page);
  const id = tunes.find(({ title }) => title === 'Old Joe Clark')?.id ?? '';
  const measure = tunes.find((tune) => tune.id === id)?.parts[0]?.measures[0]?.id ?? '';
  for (const path of [
    ...['/tunes/', `/tune/?id=${id}`, `/why/?passage=${key}`, `/tuning/?tune=${id}`, `/edit/?id=${id}`],
    ...[`/sheet/?id=${id}`, `/hand-on/?id=${id}`, `/measure/?tune=${id}&measure=${measure}`],
    ...['/progress/', '/report/', '/settings/'],
  ]) {
    await page.goto(url + path);
    await isUsable(page);
    // charts, lists and what a worker says come a moment later
    await page.waitForTimeout(1500);
    await look(path);
  }
  expect(found).toEqual([]);
  for (const path of ['/', '/progress/', `/tune/?id=${id}`]) {
    await page.goto(url + path);
    await isUsable(page);
    expect(await violations(page), path).toEqual([]);
    expect(await sideways(page), path).toEqual([]);
    await page.setViewportSize(PHONE);
  }
}, 240_000);

test('a tune is added, drilled and planned in German', async () => {
  const { page, url } = await openApp({ locale: 'de-DE', path: '/add/', hasTouch: true });
  await isUsable(page);
  await page.getByText(de.tuneForm.pasteTab).click();
  await page
    .getByRole('textbox', { name: de.tuneForm.typedTab })
    .fill(readFileSync('tests/fixtures/tab/half-readable/input.txt', 'utf8'));
  await soon(() => page.locator('main').innerText()).toMatch(/Takt/);
  expect(await english(page)).toEqual([]);
  await page.getByLabel(de.tuneForm.title, { exact: true }).fill('Kalter Bach');
  await page.getByRole('button', { name: new RegExp(`^${de.add.keep}`) }).click();
  await page.locator('main.drill').waitFor(SLOW);
  expect(await english(page)).toEqual([]);
  await touch(page);
  await page.locator('.drill.breathing').waitFor(SLOW);
  expect(await english(page)).toEqual([]);
  await page.getByRole('button', { name: de.drillScreen.end, exact: true }).click();
  await page.getByRole('button', { name: de.drillEnd.endSitting }).waitFor(SLOW);
  expect(await english(page)).toEqual([]);
  await page.goto(`${url}/`);
  await page.locator('.plan ol li').first().waitFor(SLOW);
  const day = new Intl.DateTimeFormat('de', { weekday: 'long' }).format();
  await page.locator('header', { hasText: day }).waitFor(SLOW);
});
