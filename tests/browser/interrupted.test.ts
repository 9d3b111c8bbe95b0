import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import {
  addTune,
  begin,
  button,
  isUsable,
  markNext,
  outcomes,
  readKept,
  SLOW,
  soon,
  touch,
  wordIs,
} from './learner';

const kept = async (page: Page) => outcomes((await readKept(page)).passes.map(({ entry }) => entry));

async function drillTwo(page: Page): Promise<void> {
  await addTune(page, { title: 'Cut Short', goal: 300 });
  await begin(page);
  while ((await kept(page)).length < 2) await markNext(page, 1);
}

test('a tab closed in the middle of a pass loses no marked pass, and the drill goes on with them', async () => {
  const { page, context, url } = await openApp({
    path: '/add/',
    hasTouch: true,
  });
  await drillTwo(page);
  await wordIs(page, /^pass \d/);
  const before = await readKept(page);
  const marks = await kept(page);
  await page.close({ runBeforeUnload: false });

  const again = await context.newPage();
  await again.goto(`${url}/`);
  const goOn = button(again, /^Go on/);
  await goOn.waitFor(SLOW);
  expect(await readKept(again)).toEqual(before);
  await goOn.click();
  await again.getByText(new RegExp(`^${marks.length} passes`)).waitFor(SLOW);
  await begin(again);
  while ((await kept(again)).length === marks.length) await markNext(again, 1);
  const after = await readKept(again);
  expect((await kept(again)).slice(0, marks.length)).toEqual(marks);
  expect(after.drills).toHaveLength(1);
  expect(after.sitting).toEqual(before.sitting);
});

test('a crashed page keeps its marked passes', async () => {
  const { page, context, url } = await openApp({
    path: '/add/',
    hasTouch: true,
  });
  await drillTwo(page);
  await wordIs(page, /^pass \d/);
  const before = await readKept(page);
  const crashed = page.waitForEvent('crash');
  await page.goto('chrome://crash').catch(() => null);
  await crashed;
  const again = await context.newPage();
  await again.goto(`${url}/`);
  await button(again, /^Go on/).waitFor(SLOW);
  expect(await readKept(again)).toEqual(before);
});

test('a page that goes out of sight pauses; the pass that this cut short does not count', async () => {
  const { page } = await openApp({ path: '/add/', hasTouch: true });
  await drillTwo(page);
  await wordIs(page, /^pass \d/);
  await hide(page, true);
  await wordIs(page, /^paused$/);
  const marks = await kept(page);
  await hide(page, false);
  await page.getByText(/Every marked pass is kept/).waitFor(SLOW);
  await touch(page);
  await wordIs(page, /count-in/);
  while ((await kept(page)).length === marks.length) await markNext(page, 2);
  expect((await kept(page)).slice(0, marks.length)).toEqual(marks);
});

/** Playwright keeps every page visible, so the page is told of a change of sight as the browser would tell it. */
async function hide(page: Page, isHidden: boolean): Promise<void> {
  await page.evaluate((hidden) => {
    Object.defineProperty(document, 'hidden', {
      value: hidden,
      configurable: true,
    });
    const state = hidden ? 'hidden' : 'visible';
    Object.defineProperty(document, 'visibilityState', {
      value: state,
      configurable: true,
    });
    document.dispatchEvent(new Event('visibilitychange'));
  }, isHidden);
}

test('a drill that is left while its lock is being asked for keeps nobody out', async () => {
  const { page } = await openApp({ path: '/add/', hasTouch: true });
  await page.evaluate(() => {
    const request = navigator.locks.request.bind(navigator.locks) as (...args: unknown[]) => Promise<unknown>;
    navigator.locks.request = async (...args: unknown[]) => {
      if (args[0] === 'phrasewright-drill') await new Promise((resolve) => setTimeout(resolve, 1000));
      return request(...args);
    };
  });
  await addTune(page, { title: 'In and Out' });
  await page.goBack();
  await page.getByLabel('Title').waitFor(SLOW);
  await page.waitForTimeout(1500);
  await page.goForward();
  await page.locator('.touch').waitFor(SLOW);
});

test('a line of notes is kept while it is written, not only when its field is left', async () => {
  const { page, context } = await openApp({ path: '/add/', hasTouch: true });
  await drillTwo(page);
  await button(page, 'End').click();
  const field = page.getByLabel(/A line of notes/);
  await field.pressSequentially('thumb ');
  const note = async () => JSON.stringify((await readKept(page)).sitting);
  await soon(note).toContain('"note":"thumb"');
  // what is in the field stays as it stands there
  await field.pressSequentially('late');
  expect(await field.inputValue()).toBe('thumb late');
  await soon(note).toContain('"note":"thumb late"');
  await page.close({ runBeforeUnload: false });
  const again = await context.newPage();
  await again.goto(page.url());
  expect((await readKept(again)).sitting).toMatchObject([{ sitting: { note: 'thumb late' } }]);
});

test('a tune that is half set down outlives a closed tab, and so does an edit of one', async () => {
  const { page, context, url } = await openApp({ path: '/add/' });
  await page.getByLabel('Title').fill('Half a Reel');
  await page.getByText('Paste typed tab').click();
  await page.getByLabel('Typed tab').fill('e|--0--');
  await page.getByText('Paste notation').click();
  await page.getByLabel('Notation as text').fill('X:1');
  await page.getByText('Several by their titles').click();
  await page.getByLabel('The list, one a line').fill('First of Many');
  await page.waitForTimeout(500);
  await page.close({ runBeforeUnload: false });

  const again = await context.newPage();
  await again.goto(`${url}/add/`);
  await again.getByText('Taken up where you left it.').waitFor(SLOW);
  expect(await again.getByLabel('Title').inputValue()).toBe('Half a Reel');
  expect(await again.getByLabel('Typed tab').inputValue()).toBe('e|--0--');
  expect(await again.getByLabel('Notation as text').inputValue()).toBe('X:1');
  expect(await again.getByLabel('The list, one a line').inputValue()).toBe('First of Many');
  // another window begins on an empty form
  const second = await context.newPage();
  await second.goto(`${url}/add/`);
  expect(await second.getByLabel('Title').inputValue()).toBe('');
  await second.close();
  await button(again, 'Start afresh').click();
  await soon(() => again.getByLabel('Title').inputValue()).toBe('');
  await again.reload();
  await again.getByLabel('Title').waitFor(SLOW);
  expect(await again.getByText('Taken up where you left it.').count()).toBe(0);

  await addTune(again, { title: 'Whole Reel' });
  const id = (await readKept(again)).tunes[0]?.id ?? '';
  await again.goto(`${url}/edit/?id=${id}`);
  await again.getByLabel('Title').fill('Whole Reel, Slowly');
  await again.waitForTimeout(500);
  await again.close({ runBeforeUnload: false });
  const last = await context.newPage();
  await last.goto(`${url}/edit/?id=${id}`);
  await last.getByText('Taken up where you left it.').waitFor(SLOW);
  await button(last, /^Keep the changes/).click();
  await last.waitForURL(/\/tune\//, SLOW);
  expect((await readKept(last)).tunes).toMatchObject([{ title: 'Whole Reel, Slowly' }]);
  await last.goto(`${url}/edit/?id=${id}`);
  await last.getByLabel('Title').waitFor(SLOW);
  expect(await last.getByText('Taken up where you left it.').count()).toBe(0);
});

test('a drill in a second tab is refused in plain words, until the first one is ended', async () => {
  const { page, context } = await openApp({ path: '/add/', hasTouch: true });
  await drillTwo(page);
  const second = await context.newPage();
  await second.goto(page.url());
  await second.getByText('A drill is open in another tab or window.').waitFor(SLOW);
  await isUsable(second);
  expect(await second.locator('.touch').count()).toBe(0);
  await markNext(page, 1);

  await button(page, 'End').click();
  await page.getByText(/came out clean/).waitFor(SLOW);
  const refused = button(second, 'Try again');
  await soon(async () => {
    if (await refused.isVisible()) await refused.click();
    return second.locator('.touch').isVisible();
  }).toBe(true);
});
