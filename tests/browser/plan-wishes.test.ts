import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { makeProfile, openApp } from './harness';
import { button, isUsable, readPlan, SLOW, soon } from './learner';

const lines = (page: Page) => page.locator('[data-line]');
const line = (page: Page, place: number) => lines(page).nth(place);
const keys = (page: Page) =>
  lines(page).evaluateAll((found) => found.map((one) => one.getAttribute('data-line') ?? ''));
const nameOf = async (page: Page, place: number) => (await line(page, place).locator('b').innerText()).trim();

async function openDemo(options: Parameters<typeof openApp>[0] = {}) {
  const app = await openApp(options);
  const { page } = app;
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  await page.getByLabel('I have').selectOption('40');
  await planIsOf(page, 30, 40);
  return app;
}

/** Waits until the plan shown fills so many minutes. */
async function planIsOf(page: Page, from: number, to: number): Promise<void> {
  const minutes = async () =>
    Number(/^(\d+) minutes/.exec(await page.locator('.planhead span').innerText())?.[1]);
  await soon(async () => (await minutes()) >= from && (await minutes()) <= to).toBe(true);
}

/** Opens a line and waits for what it holds. */
async function openLine(page: Page, place: number): Promise<void> {
  await line(page, place).click();
  await button(page, 'Not today').waitFor(SLOW);
}

test('a passage left out stays out over a reload, and comes back when it is put back', async () => {
  const { page } = await openDemo();
  const before = await keys(page);
  const name = await nameOf(page, 1);
  await openLine(page, 1);
  await button(page, 'Not today').click();
  await page.getByText(/^Left out by you/).waitFor(SLOW);
  await soon(() => keys(page)).not.toContain(before[1]);
  expect(await page.getByText(/^Left out by you/).innerText()).toContain(name);
  expect(await button(page, 'Not today').count(), 'no line is open').toBe(0);

  await page.reload();
  await isUsable(page);
  await page.getByText(/^Left out by you/).waitFor(SLOW);
  expect(await keys(page)).not.toContain(before[1]);
  await button(page, `Put back ${name}`).click();
  await soon(() => keys(page)).toEqual(before);
  expect(await page.getByText(/^Left out by you/).count()).toBe(0);
});

test('a passage kept in stays when minutes and hands change, in every tab, and no longer than the day', async () => {
  const userDataDir = makeProfile();
  const { page, context, url, close } = await openDemo({ userDataDir });
  const last = (await keys(page)).length - 1;
  const key = (await keys(page))[last]!;
  await openLine(page, last);
  const keep = button(page, 'Keep it in');
  await keep.click();
  await soon(() => keep.getAttribute('aria-pressed')).toBe('true');
  // what is kept in brings its tuning forward: it may stand elsewhere now
  await soon(() => page.locator(`[data-line="${key}"]`).innerText()).toContain('kept in');

  const second = await context.newPage();
  await second.goto(url);
  await isUsable(second);
  await soon(() => second.locator(`[data-line="${key}"]`).innerText()).toContain('kept in');
  await page.getByLabel('I have').selectOption('10');
  await planIsOf(page, 5, 10);
  expect(await keys(page)).toContain(key);
  await page.getByLabel('and my hands feel').selectOption('tired');
  await soon(() => page.getByText(/^Your hands are tired/).count()).toBe(1);
  expect(await keys(page)).toContain(key);

  await second.locator(`[data-line="${key}"]`).click();
  await button(second, 'Keep it in').click();
  await soon(() => page.getByText('kept in').count()).toBe(0);
  await close();

  const tomorrow = await openApp({ userDataDir, clockMs: Date.now() + 24 * 3_600_000 });
  await readPlan(tomorrow.page);
  expect(await tomorrow.page.getByText('kept in').count()).toBe(0);
});

test('something else takes a passage’s place, with its reason', async () => {
  const { page } = await openDemo();
  const before = await keys(page);
  await openLine(page, 2);
  await button(page, 'Something else instead').click();
  const others = page.locator('.others button');
  await others.first().waitFor(SLOW);
  const offered = await others.count();
  expect(offered).toBeGreaterThanOrEqual(2);
  expect(offered).toBeLessThanOrEqual(4);
  for (const text of await others.allInnerTexts()) expect(text).toMatch(/\w+.*\.\s+\d+\s*min/s);
  const name = await others.first().locator('b').innerText();
  await others.first().click();
  await soon(() => keys(page)).not.toContain(before[2]);
  await page
    .getByText(`${name} takes the place of`, { exact: false })
    .waitFor({ ...SLOW, state: 'attached' });
  const after = await keys(page);
  const instead = after.find((key) => !before.includes(key));
  await soon(() => page.evaluate(() => document.activeElement?.getAttribute('data-line') ?? '')).toBe(
    instead,
  );
  await page.reload();
  await isUsable(page);
  await soon(() => keys(page)).toEqual(after);
});

test('passages are put in another order by buttons, and by dragging; a reload keeps it', async () => {
  const { page } = await openDemo({ hasTouch: true });
  const before = await keys(page);
  await openLine(page, 1);
  await button(page, 'Earlier').click();
  const swapped = [before[1], before[0], ...before.slice(2)];
  await soon(() => keys(page)).toEqual(swapped);
  // the line is first now: there is nothing earlier, and the focus has not been lost
  expect(await button(page, 'Earlier').isDisabled()).toBe(true);
  await soon(() => page.evaluate(() => document.activeElement?.getAttribute('data-line'))).toBe(before[1]);
  await line(page, 0).click();

  const grip = page.locator('.grip').first();
  await grip.scrollIntoViewIfNeeded();
  const from = (await grip.boundingBox())!;
  const third = (await line(page, 2).boundingBox())!;
  const x = from.x + from.width / 2;
  await page.mouse.move(x, from.y + from.height / 2);
  await page.mouse.down();
  await page.mouse.move(x, from.y + 60, { steps: 4 });
  await page.mouse.move(x, third.y + third.height, { steps: 8 });
  await page.mouse.up();
  const dragged = [swapped[1], swapped[2], swapped[0], ...swapped.slice(3)];
  await soon(() => keys(page)).toEqual(dragged);
  await page.reload();
  await isUsable(page);
  await soon(() => keys(page)).toEqual(dragged);
});

test('one more new thing is brought when it is asked for, and let go again', async () => {
  const { page } = await openDemo();
  const news = () => page.locator('[data-line] .marks', { hasText: 'new' }).count();
  const before = await news();
  await button(page, 'One more new thing').click();
  await page.getByText(/^You asked for one more new thing/).waitFor(SLOW);
  await soon(news).toBeGreaterThan(before);
  await button(page, 'Not after all').click();
  await button(page, 'One more new thing').waitFor(SLOW);
  await soon(news).toBe(before);
});

test('the plan is steered by keyboard alone, and the focus is never lost', async () => {
  const { page } = await openDemo();
  const before = await keys(page);
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute('data-line') ?? '');
  const tabTo = async (name: string) => {
    const target = button(page, name);
    await target.waitFor(SLOW);
    const isThere = () => target.evaluate((element) => element === document.activeElement);
    for (let step = 0; step < 30 && !(await isThere()); step++) await page.keyboard.press('Tab');
    expect(await isThere(), `Tab reaches ${name}`).toBe(true);
  };
  await line(page, 1).focus();
  await page.keyboard.press('Enter');
  await tabTo('Later');
  await page.keyboard.press('Space');
  await soon(async () => (await keys(page)).indexOf(before[1]!)).toBe(2);
  expect(await button(page, 'Later').evaluate((element) => element === document.activeElement)).toBe(true);
  await line(page, 2).focus();
  await tabTo('Not today');
  await page.keyboard.press('Enter');
  await soon(() => keys(page)).not.toContain(before[1]);
  await soon(focused).not.toBe('');
  const name = await page
    .getByText(/^Left out by you/)
    .locator('b')
    .innerText();
  await tabTo(`Put back ${name}`);
  await page.keyboard.press('Enter');
  await soon(() => keys(page)).toContain(before[1]);
  await soon(() => page.evaluate(() => document.activeElement?.id)).toBe('plan');
});
