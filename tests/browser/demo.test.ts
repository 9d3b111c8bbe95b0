import { expect, test } from 'vitest';
import { openApp } from './harness';
import { addTune, begin, button, isUsable, markNext, readKept, readPlan, SLOW, soon } from './learner';

test('one touch brings the demo with its plan and boards; taking it out leaves an own tune and its passes', async () => {
  const { page, url } = await openApp({ hasTouch: true });
  await button(page, 'Try it with the demo tunes').click();
  const plan = await readPlan(page);
  expect(plan.length).toBeGreaterThan(1);
  for (const { name, reason } of plan) expect(reason, name).toMatch(/\w+ .*\./);
  const { tunes, sittings } = await readKept(page);
  expect(tunes).toHaveLength(6);
  expect(sittings.length).toBeGreaterThan(20);
  expect([...tunes, ...sittings].filter(({ origin }) => origin !== 'demo')).toEqual([]);

  for (const tune of tunes) {
    await page.goto(`${url}/tune/?id=${tune.id}`);
    await isUsable(page);
    const tiles = tune.parts.reduce((sum, { measures }) => sum + measures.length, 0);
    expect(await page.locator('[data-cell]').count(), tune.title).toBe(tiles);
  }

  await page.goto(`${url}/add/`);
  await addTune(page, { title: 'Own Back Porch', goal: 300 });
  await begin(page);
  while ((await readKept(page)).passes.length === 0) await markNext(page, 1);
  await button(page, 'End').click();
  await page.getByText(/came out clean/).waitFor(SLOW);
  await button(page, 'End the sitting').click();
  await page.waitForURL(`${url}/`, SLOW);
  const own = async () => {
    const book = await readKept(page);
    return [book.tunes, book.sittings].map((records) => records.filter(({ origin }) => origin === 'own'));
  };
  await soon(async () => (await own()).map(({ length }) => length)).toEqual([1, 1]);
  const before = await own();

  await page.getByRole('link', { name: 'Settings' }).click();
  await button(page, 'Take the demo out').click();
  await page.getByText('The demo is out.').waitFor(SLOW);
  const left = await readKept(page);
  expect([left.tunes, left.sittings]).toEqual(before);
  await page.getByRole('link', { name: 'Today' }).click();
  await soon(async () => (await readPlan(page)).length).toBeGreaterThan(0);
  const titles = page.locator('.plan ol li i');
  await soon(async () => new Set(await titles.allInnerTexts())).toEqual(new Set(['Own Back Porch']));
});
