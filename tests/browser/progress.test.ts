import { readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import { button, readPlan, SLOW, soon } from './learner';

test('progress shows a span of one’s choice, the passes behind a day that is touched, and goes out as a picture', async () => {
  const { page, url } = await openApp({ hasTouch: true });
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  await page.goto(`${url}/progress/`);
  const chart = page.locator('.chart canvas').first();
  await chart.waitFor(SLOW);
  await page.getByRole('combobox', { name: 'Tune' }).selectOption({ label: 'Angeline the Baker' });
  const sixWeeks = page.getByRole('radio', { name: '6 weeks' });
  await sixWeeks.waitFor(SLOW);
  const days = page
    .getByRole('table', { name: /by practice day/ })
    .first()
    .locator('tbody tr');
  await page.getByText('As a table').first().click();
  const all = await days.count();
  await sixWeeks.check();
  await soon(() => days.count()).toBeLessThan(all);

  const box = await chart.boundingBox();
  // the newest days lie at the right of the past, whatever lies ahead
  await page.touchscreen.tap((box?.x ?? 0) + 40, (box?.y ?? 0) + (box?.height ?? 0) / 2);
  const behind = page.locator('.picked a');
  await behind.waitFor(SLOW);

  const saved = page.waitForEvent('download');
  await button(page, 'Keep it as a picture').click();
  const file = await saved;
  expect(file.suggestedFilename()).toMatch(/^angeline.*\.png$/i);
  const png = await readFile(await file.path());
  // ISO/IEC 15948 (PNG), 5.2: the signature; 11.2.2: width and height stand first in the first chunk
  expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  expect(png.readUInt32BE(16)).toBeGreaterThan(700);
  expect(png.readUInt32BE(20)).toBeGreaterThan(400);

  await page.getByRole('heading', { name: 'Repertoire by month' }).waitFor(SLOW);
  await behind.click();
  await page.waitForURL(/\/why\//, SLOW);
  await page.getByRole('heading', { level: 1 }).waitFor(SLOW);
});
