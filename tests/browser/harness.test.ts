import { expect, test } from 'vitest';
import { DESKTOP, makeProfile, openApp } from './harness';

const noteOf = () => localStorage.getItem('harness-test');

test('an error on the page fails the test that caused it, unless it was expected', async () => {
  const bad = await openApp();
  await bad.page.evaluate(() => {
    console.error('a made-up fault');
  });
  await expect(bad.close()).rejects.toThrow('a made-up fault');

  const thrown = await openApp();
  const isSeen = thrown.context.waitForEvent('weberror');
  await thrown.page.evaluate(() => {
    setTimeout(() => {
      throw new RangeError('made up as well');
    });
  });
  await isSeen;
  await expect(thrown.close()).rejects.toThrow('RangeError: made up as well');

  const expected = await openApp({ expectedErrors: [/made-up/] });
  await expected.page.evaluate(() => {
    console.error('a made-up fault');
  });
  await expected.close();
});

test('what the content policy blocks counts as an error', async () => {
  const app = await openApp();
  await app.page.evaluate(() => {
    const style = document.createElement('style');
    style.textContent = 'body { margin: 0 }';
    document.body.append(style);
  });
  await expect(app.close()).rejects.toThrow(/Content Security Policy/);
});

test('a profile is the same learner after the browser was closed; without one everything is forgotten', async () => {
  const userDataDir = makeProfile();
  const before = await openApp({ userDataDir });
  await before.page.evaluate(() => {
    localStorage.setItem('harness-test', 'kept');
  });
  await before.close();
  const after = await openApp({ userDataDir, viewport: DESKTOP });
  expect(await after.page.evaluate(noteOf)).toBe('kept');
  expect(after.page.viewportSize()).toEqual(DESKTOP);
  const stranger = await openApp();
  expect(await stranger.page.evaluate(noteOf)).toBe(null);
});

test('the clock of the page starts where it is told and runs on', async () => {
  const clockMs = Date.UTC(2031, 5, 1, 6, 30);
  const app = await openApp({ clockMs });
  const [now, built, given, later] = await app.page.evaluate(async () => {
    const first = Date.now();
    await new Promise((resolve) => setTimeout(resolve, 50));
    return [first, new Date().getTime(), new Date(5).getTime(), Date.now()];
  });
  // a busy machine may take a minute to open the page, never an hour
  expect(now).toBeGreaterThanOrEqual(clockMs);
  expect(now).toBeLessThan(clockMs + 3_600_000);
  expect(built).toBeGreaterThan(now ?? NaN);
  expect(later).toBeGreaterThanOrEqual(built ?? NaN);
  expect(given).toBe(5);
});
