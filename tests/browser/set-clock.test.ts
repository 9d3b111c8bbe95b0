import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { practiceDay, practiceDayDate } from '../../src/lib/core/time/practice-day';
import { openApp } from './harness';
import { addTune, begin, isUsable, markNext, readKept, SLOW, soon, wordIs } from './learner';

const HOUR_MS = 3_600_000;
/** Half past eight in the evening in Auckland, UTC+13 in November (IANA time zone database; from memory). */
const EVENING = Date.UTC(2026, 10, 26, 7, 30);

interface TimedEntry {
  kind: string;
  id: string;
  at: number;
  offsetMin: number;
}

const openLog = async (page: Page) =>
  (await readKept(page)).passes.map(({ entry }) => entry as unknown as TimedEntry);

async function markOneMore(page: Page): Promise<void> {
  const before = (await openLog(page)).length;
  while ((await openLog(page)).length === before) await markNext(page, 1);
}

/** The page is told of a change of sight as the browser would tell it: Playwright keeps every page visible. */
async function comeBack(page: Page): Promise<void> {
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
}

test('a clock set back, a journey over the date line and a day gone by, all within one drill, break nothing', async () => {
  const { page, context, url } = await openApp({ path: null, hasTouch: true, timezoneId: null });
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setTimezoneOverride', { timezoneId: 'Pacific/Auckland' });
  await page.clock.setSystemTime(EVENING);
  await page.goto(`${url}/add/`);
  await addTune(page, { title: 'Date Line', goal: 300 });
  await begin(page);
  await markOneMore(page);

  await page.clock.setSystemTime(EVENING - HOUR_MS);
  await markOneMore(page);
  await page.reload();
  await page.locator('main.drill').waitFor(SLOW);
  await begin(page);
  await markOneMore(page);

  await page.clock.setSystemTime(EVENING + HOUR_MS / 2);
  await session.send('Emulation.setTimezoneOverride', { timezoneId: 'Pacific/Honolulu' });
  await markOneMore(page);
  const log = await openLog(page);
  expect(log.map(({ at }) => at)).toEqual(log.map(({ at }) => at).sort((a, b) => a - b));
  expect(log.map(({ id }) => id)).toEqual(log.map(({ id }) => id).sort());
  expect(log.map(({ at }) => at >= EVENING)).not.toContain(false);
  const days = [log[0], log.at(-1)].map((entry) => entry && practiceDayDate(practiceDay(entry)));
  // the same hour is the day before on the other side of the line
  expect(days).toEqual(['2026-11-26', '2026-11-25']);

  // paused over night: what is played next day is of the next day
  await page.keyboard.press('p');
  await wordIs(page, /^paused$/);
  await page.clock.setSystemTime(EVENING + 26 * HOUR_MS);
  await comeBack(page);
  await soon(async () => (await readKept(page)).sittings.length).toBe(1);
  await begin(page);
  await markOneMore(page);
  const { sittings, sitting, passes } = await readKept(page);
  const sealed = sittings[0] as unknown as { endedAt: number; at: number; log: TimedEntry[] };
  expect(sealed.log).toHaveLength(log.length);
  expect(sealed.endedAt).toBe(log.at(-1)?.at);
  expect(sealed.endedAt).toBeGreaterThanOrEqual(sealed.at);
  expect([sitting.length, passes.length]).toEqual([1, 1]);

  for (const path of ['/', '/progress/', '/tunes/']) {
    await page.goto(url + path);
    await isUsable(page);
    await page.getByText('Date Line').first().waitFor(SLOW);
    expect(await page.locator('main').innerText()).not.toMatch(/NaN|Invalid|undefined|-\d+ (day|minute)/);
    expect(await page.getByRole('alert').count()).toBe(0);
  }
});
