import type { Locator, Page } from 'playwright';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import {
  button,
  formTile,
  isUsable,
  markNext,
  outcomes,
  readKept,
  readPlan,
  SLOW,
  soon,
  wordIs,
} from './learner';

/** Presses Tab (or Shift+Tab) until this has the focus, and sees that the focus shows. */
async function tabTo(page: Page, target: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  await target.waitFor(SLOW);
  const hasFocus = () => target.evaluate((element) => element === document.activeElement);
  for (let step = 0; step < 80 && !(await hasFocus()); step++) await page.keyboard.press(key);
  expect(await hasFocus(), `reach ${String(target)} by ${key}`).toBe(true);
  expect(await focusShows(page), `the focus shows on ${String(target)}`).toBe(true);
}

/** An outline on the element that has the focus, or on the one that is drawn for it. */
function focusShows(page: Page): Promise<boolean> {
  return page.evaluate(() => {
    const focused = document.activeElement;
    if (!focused) return false;
    const drawn = [
      focused,
      focused.nextElementSibling,
      focused.parentElement,
      focused.parentElement?.parentElement,
    ];
    return drawn.some((element) => {
      if (!element) return false;
      const { outlineStyle, outlineWidth } = getComputedStyle(element);
      return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2;
    });
  });
}

test('the whole main job by keyboard alone', async () => {
  const { page, url } = await openApp();
  const press = (key: string) => page.keyboard.press(key);
  await isUsable(page);

  await tabTo(page, page.getByRole('link', { name: 'Add a tune' }));
  await press('Enter');
  await tabTo(page, page.getByLabel('Title'));
  await page.keyboard.type('Lantern Reel');
  await tabTo(page, page.getByRole('radio', { name: 'gDGBD' }));
  await press('ArrowRight');
  expect(await page.getByRole('radio', { name: 'gCGCD' }).isChecked()).toBe(true);
  const goal = page.getByLabel(/^Goal/);
  await tabTo(page, goal);
  await press('ControlOrMeta+A');
  await page.keyboard.type('300');
  await tabTo(page, formTile(page, 'A5'));
  await press('Enter');
  await tabTo(page, button(page, 'Same as …'));
  await press('Space');
  await tabTo(page, formTile(page, 'A1'), 'Shift+Tab');
  await press('Enter');
  await page.getByText('A5 is A1 again.').waitFor(SLOW);
  await tabTo(page, button(page, /^Keep this tune/));
  await press('Enter');
  await wordIs(page, /ready/);

  const space = async (_: Page, times = 1) => {
    for (let time = 0; time < times; time++) await press('Space');
  };
  const log = async () => outcomes((await readKept(page)).passes.map(({ entry }) => entry));
  await press('Space');
  await markNext(page, 1, space);
  while ((await log()).length < 2) await markNext(page, 1, space);
  await press('p');
  await wordIs(page, /^paused$/);
  await press('p');
  await wordIs(page, /count-in/);
  while (!(await log()).includes('stumbled')) await markNext(page, 2, space);
  const pedal = async (_: Page, times = 1) => {
    for (let time = 0; time < times; time++) await press('PageDown');
  };
  const marked = (await log()).length;
  while ((await log()).length === marked) await markNext(page, 1, pedal);
  await press('Escape');

  await tabTo(page, page.getByLabel(/A line of notes/));
  await page.keyboard.type('By keyboard');
  await tabTo(page, button(page, 'End the sitting'));
  await press('Enter');
  await page.waitForURL(`${url}/`, SLOW);
  await soon(async () => (await readKept(page)).sittings.map(({ note }) => note)).toEqual(['By keyboard']);
  expect((await readPlan(page)).length).toBeGreaterThan(0);
  await tabTo(page, button(page, /^Begin/));

  const toTunes = page.getByRole('navigation').getByRole('link', { name: 'Tunes' });
  await tabTo(page, toTunes);
  await press('Enter');
  await page.waitForURL(`${url}/tunes/`, SLOW);
  await tabTo(page, page.locator('.list a', { hasText: 'Lantern Reel' }));
  await press('Enter');
  const tiles = page.locator('[data-cell]');
  await tabTo(page, tiles.first());
  await press('ArrowRight');
  await press('ArrowDown');
  await press('Enter');
  await page.getByRole('heading', { name: 'Measure 6, part A' }).waitFor(SLOW);
  await press('Shift+ArrowRight');
  await page.getByRole('heading', { name: 'Measures 6–7, part A' }).waitFor(SLOW);
  await tabTo(page, page.getByRole('link', { name: /^Drill/ }));
  await press('Enter');
  await wordIs(page, /ready/);
  await press('Escape');
  await page.locator('main:not(.drill)').waitFor(SLOW);

  const progress = page.getByRole('navigation').getByRole('link', { name: 'Progress' });
  await tabTo(page, progress);
  await press('Enter');
  await page.locator('.chart canvas').waitFor(SLOW);
  await tabTo(page, page.locator('summary', { hasText: 'As a table' }).first());
  await press('Enter');
  await page.getByRole('table').first().waitFor(SLOW);
}, 240_000);

test('the keys are shown over a drill that goes on below, and their Escape ends only them', async () => {
  const { page } = await openApp();
  await page.getByRole('link', { name: 'Add a tune' }).click();
  await page.getByLabel('Title').fill('Why? What for?');
  await button(page, /^Keep this tune/).click();
  await page.locator('main.drill').waitFor(SLOW);
  await page.keyboard.press('?');
  await page.getByRole('dialog', { name: 'Keys' }).waitFor(SLOW);
  await page.keyboard.press('t');
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ ...SLOW, state: 'detached' });
  await wordIs(page, /^ready/);
});
