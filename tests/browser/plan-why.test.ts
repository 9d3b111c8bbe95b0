import { expect, test } from 'vitest';
import { installOffline, begin, button, isUsable, markNext, readKept, readPlan, SLOW, soon } from './learner';
import { openApp } from './harness';

test('why this, why this tempo: the passes that led there, from the plan and from the board, offline too', async () => {
  const { page, url, offline } = await openApp({ offlineCopy: true });
  await installOffline(page);
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  await page.locator('[data-line]').nth(1).click();
  const link = page.getByRole('link', { name: 'Why this tempo' });
  await link.waitFor(SLOW);
  const title = await page.locator('[data-line]').nth(1).locator('i').innerText();
  await link.click();
  await page.waitForURL(/\/why\/\?passage=/, SLOW);
  await isUsable(page);
  for (const heading of ['Why this', 'Why this tempo', 'The passes behind it']) {
    await page.getByRole('heading', { name: heading, exact: true }).waitFor(SLOW);
  }
  await page.getByRole('link', { name: title }).waitFor(SLOW);
  await page.getByText('‹ Back').click();
  await page.waitForURL(`${url}/`, SLOW);

  const { tunes } = await readKept(page);
  const tune = tunes.find((one) => one.title === 'Old Joe Clark');
  await page.goto(`${url}/tune/?id=${tune?.id ?? ''}`);
  await isUsable(page);
  await page.getByRole('link', { name: 'Why this, why this tempo' }).click();
  await isUsable(page);
  await page
    .getByText(/^\w+( \w+)?: \d+ of \d+ clean at \d+(–\d+)?\.$/)
    .first()
    .waitFor(SLOW);
  await page.getByText('As a table').click();
  const rows = page.locator('table').first().locator('tbody tr');
  expect(await rows.count()).toBeGreaterThan(5);
  const address = page.url();
  await offline();
  await page.goto(address);
  await isUsable(page);
  await page.getByText(/comes out clean 17 times in 20/).waitFor(SLOW);
  await page.goto(`${url}/why/?passage=figure:none:none`);
  await page.getByRole('heading', { name: 'No such passage in this book.' }).waitFor(SLOW);
});

test('after a drill its passes are told, and the rest of the sitting is planned around them', async () => {
  const { page, url } = await openApp({ hasTouch: true });
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  const keys = () =>
    page.locator('[data-line]').evaluateAll((all) => all.map((one) => one.getAttribute('data-line') ?? ''));
  const [first = ''] = await keys();
  await button(page, /^Begin/).click();
  await begin(page);
  while ((await readKept(page)).passes.length < 2) await markNext(page, 1);
  await button(page, 'End').click();
  await page.getByText(/came out clean/).waitFor(SLOW);
  const next = page.getByRole('link', { name: /^Next/ });
  await next.waitFor(SLOW);
  expect(await next.getAttribute('href')).not.toContain(encodeURIComponent(first));
  await page.getByRole('link', { name: /^Why this tempo/ }).click();
  await isUsable(page);
  await page.getByText(/^Today: \d of \d clean at \d+(–\d+)?\.$/).waitFor(SLOW);
  await page.goto(`${url}/`);
  await isUsable(page);
  await button(page, /^Go on/).waitFor(SLOW);
  await page.getByText(/of 20 minutes are left\.$/).waitFor(SLOW);
  await soon(async () => (await keys())[0]).not.toBe(first);
  await page.reload();
  await isUsable(page);
  await page.getByText(/of 20 minutes are left\.$/).waitFor(SLOW);
  expect((await keys())[0]).not.toBe(first);
}, 240_000);
