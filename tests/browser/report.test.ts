import { expect, test } from 'vitest';
import { violations } from './axe';
import { openApp } from './harness';
import { button, readPlan, SLOW, soon } from './learner';

test('a page for a teacher tells of some weeks, is printed without its tools, and keeps the name off the device', async () => {
  const { page, url } = await openApp();
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  await page.goto(`${url}/progress/`);
  await page.getByRole('link', { name: 'A page for a teacher' }).click();
  const paper = page.locator('.paper');
  await paper.waitFor(SLOW);
  const minutes = async () => Number(/(\d+) minutes/.exec(await paper.innerText())?.[1]);
  const inFour = await minutes();
  expect(inFour).toBeGreaterThan(0);
  await page.getByRole('radio', { name: '12 weeks' }).check();
  await soon(minutes).toBeGreaterThan(inFour);
  await page.getByRole('radio', { name: '2 weeks', exact: true }).check();
  await soon(minutes).toBeLessThan(inFour);
  await page.getByLabel(/^Your name/).fill('Ada <b>Fiddler</b>');
  await page.getByRole('heading', { name: 'Practice of Ada <b>Fiddler</b>' }).waitFor(SLOW);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await violations(page), colorScheme).toEqual([]);
  }

  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  expect(await page.locator('.paper-tools').isVisible()).toBe(false);
  expect(await page.locator('nav').first().isVisible()).toBe(false);
  expect(await paper.evaluate((drawn) => getComputedStyle(drawn).backgroundColor)).toBe('rgb(255, 255, 255)');
  await page.emulateMedia({ media: 'screen' });
  await page.reload();
  await paper.waitFor(SLOW);
  expect(await page.getByLabel(/^Your name/).inputValue()).toBe('');
});
