import { expect, test } from 'vitest';
import { violations } from './axe';
import { DESKTOP, openApp } from './harness';
import { button, readKept, SLOW, soon } from './learner';

test('tunes are found by word, tuning and standing, put together by tuning, and added by their titles', async () => {
  const { page, url } = await openApp({ path: '/tunes/' });
  await button(page, /demo tunes/).click();
  const titles = () => page.locator('.list li b').allInnerTexts();
  await page.locator('.list .soft:not(:empty)').first().waitFor(SLOW);
  expect(await titles()).toHaveLength(6);

  await page.getByLabel('Find', { exact: true }).fill('hen');
  await soon(titles).toEqual(['Cluck Old Hen', 'Crooked Hen on the Mill Stair']);
  await page.getByRole('combobox', { name: 'Tuning', exact: true }).selectOption('aEADE');
  await soon(titles).toEqual(['Cluck Old Hen']);
  await page.getByRole('combobox', { name: 'Standing' }).selectOption('not begun');
  await page.getByText('No tune of yours is like that.').waitFor(SLOW);
  await button(page, 'Show all').click();
  await soon(async () => (await titles()).length).toBe(6);
  await page.getByRole('combobox', { name: 'Standing' }).selectOption('at goal');
  await soon(titles).toContain('Old Joe Clark');
  expect(await titles()).not.toContain('Cold Frosty Morning');
  await button(page, 'Show all').click();
  await page.getByLabel('By tuning, for a jam').check();
  const headings = await page.locator('h2.section .tuning').allInnerTexts();
  expect(new Set(headings).size).toBe(headings.length);
  expect(headings.length).toBeGreaterThan(2);
  await soon(async () => (await titles()).length).toBe(6);
  expect(await violations(page)).toEqual([]);
  await page.setViewportSize(DESKTOP);
  expect(await violations(page)).toEqual([]);

  await page.goto(`${url}/add/`);
  await page.getByText('Several by their titles').click();
  await page.getByLabel('The list, one a line').fill('1. Tin Lantern\n2. Sandy Boys\n3. Old Joe Clark\n');
  await page.getByText('In your book already, and left out: Old Joe Clark.').waitFor(SLOW);
  expect(await violations(page)).toEqual([]);
  await button(page, 'Keep these 2').click();
  await page.getByText('These 2 tunes are in your book now.').waitFor(SLOW);
  const own = (await readKept(page)).tunes.filter(({ origin }) => origin === 'own');
  expect(own.map(({ title }) => title).sort()).toEqual(['Sandy Boys', 'Tin Lantern']);
});
