import { expect, test } from 'vitest';
import { openApp } from './harness';
import { button, isUsable, readKept, readPlan, SLOW, soon } from './learner';

test('the plan follows the check-in: minutes with their break, tuning, and hands; minutes and tuning are kept', async () => {
  const { page } = await openApp({ hasTouch: true });
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  const summary = page.locator('.planhead span');
  const minutesPlanned = async () => Number(/^(\d+) minutes/.exec(await summary.innerText())?.[1]);

  await page.getByLabel('I have').selectOption('60');
  await soon(minutesPlanned).toBeGreaterThan(30);
  // more than half an hour at a stretch is broken up (SCIENCE.md section 5: convention)
  await page
    .getByText(/^Put the banjo down for \d minutes\.$/)
    .first()
    .waitFor(SLOW);

  await page.getByLabel('and my hands feel').selectOption('tired');
  await page.getByText(/^Your hands are tired/).waitFor(SLOW);
  await soon(minutesPlanned).toBeLessThanOrEqual(15);

  await page.getByLabel('the banjo is in').selectOption('aDADE');
  // the one demo tune in that tuning
  await soon(() => page.locator('.plan ol li i').first().innerText()).toBe('Angeline the Baker');
  expect(await page.getByRole('alert').count()).toBe(0);

  const { settings } = await readKept(page);
  expect(settings.map(({ key, value }) => [key, value])).toContainEqual(['minutes', 60]);
  await page.reload();
  await isUsable(page);
  await soon(() => page.getByLabel('I have').inputValue()).toBe('60');
  await soon(() => page.getByLabel('the banjo is in').inputValue()).toBe('aDADE');
});
