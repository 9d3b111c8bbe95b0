import { expect, test } from 'vitest';
import { openApp, type OpenApp } from './harness';
import { button, installOffline, isUsable, readKept, readPlan, SLOW, soon } from './learner';

async function openWithDemo(): Promise<OpenApp> {
  const app = await openApp({ offlineCopy: true, hasTouch: true });
  await button(app.page, 'Try it with the demo tunes').click();
  await readPlan(app.page);
  return app;
}

async function tuneNamed({ page }: OpenApp, title: string) {
  const tune = (await readKept(page)).tunes.find((kept) => kept.title === title);
  if (!tune) throw new Error(`The demo has no ${title}.`);
  return tune;
}

const tuningInHand = async ({ page }: OpenApp) =>
  (await readKept(page)).settings.find(({ key }) => key === 'tuning')?.value;

test('from Today: the steps from the tuning in hand, each string by ear, and the tuning is in hand', async () => {
  const app = await openWithDemo();
  const { page } = app;
  await page.getByLabel('the banjo is in').selectOption('gDGBD');
  await soon(() => tuningInHand(app)).toEqual([67, 50, 55, 59, 62]);
  const way = page.getByRole('link', { name: /^Tune up to/ }).first();
  await way.waitFor(SLOW);
  const to = (await way.innerText()).replace('Tune up to ', '');
  await way.click();
  await page.getByRole('heading', { name: `Tune up to ${to}` }).waitFor(SLOW);
  expect(await page.locator('ol li').count()).toBeGreaterThan(0);

  const third = button(page, /^3rd string/);
  await third.click();
  await soon(() => third.getAttribute('aria-pressed')).toBe('true');
  // another string takes its place
  const short = button(page, /^5th string/);
  await short.click();
  await soon(() => third.getAttribute('aria-pressed')).toBe('false');
  await soon(() => short.getAttribute('aria-pressed')).toBe('true');
  await short.click();
  await soon(() => short.getAttribute('aria-pressed')).toBe('false');

  await button(page, /^The banjo is in .* now/).click();
  await page.waitForURL(`${app.url}/`, SLOW);
  await soon(() => page.getByLabel('the banjo is in').inputValue()).toBe(to);
});

test('double C to double D goes up two frets on every string, by keyboard alone', async () => {
  const app = await openWithDemo();
  const { page, url } = app;
  await page.getByLabel('the banjo is in').selectOption('gCGCD');
  await soon(() => tuningInHand(app)).toEqual([67, 48, 55, 60, 62]);
  const tune = await tuneNamed(app, 'Angeline the Baker');
  await page.goto(`${url}/tuning/?tune=${tune.id}`);
  await isUsable(page);
  // aDADE is gCGCD two frets up on every string (common practice)
  expect(await page.locator('ol li').allInnerTexts()).toEqual([
    "Raise the fourth string two frets' worth: C to D.",
    "Raise the third string two frets' worth: G to A.",
    "Raise the second string two frets' worth: C to D.",
    "Raise the first string two frets' worth: D to E.",
    expect.stringMatching(/^Raise the fifth string two frets' worth: G to A/),
  ]);
  // ISO 16: A above middle C is 440 Hz; the short string of aDADE is that A
  expect(await button(page, /^5th string/).innerText()).toContain('440.0');
  const press = (key: string) => page.keyboard.press(key);
  await button(page, /^4th string/).focus();
  await press('Enter');
  await soon(() => button(page, /^4th string/).getAttribute('aria-pressed')).toBe('true');
  const done = button(page, /^The banjo is in double D now/);
  for (let step = 0; step < 10; step++) {
    if (await done.evaluate((element) => element === document.activeElement)) break;
    await press('Tab');
  }
  await press('Enter');
  await soon(() => tuningInHand(app)).toEqual([69, 50, 57, 62, 64]);
  await page.waitForURL(/\/tune\//, SLOW);
});

test('the screen opens by its address without a network, and says when the banjo is there already', async () => {
  const app = await openWithDemo();
  const { page, url } = app;
  const tune = await tuneNamed(app, 'Angeline the Baker');
  await page.getByLabel('the banjo is in').selectOption('aDADE');
  await soon(() => tuningInHand(app)).toEqual(tune.tuning);
  await installOffline(page);
  await app.offline();
  await page.goto(`${url}/tuning/?tune=${tune.id}`);
  await page.getByText('It is there already. Check it by ear.').waitFor(SLOW);
  await button(page, /^1st string/).click();
  await soon(() => button(page, /^1st string/).getAttribute('aria-pressed')).toBe('true');
});

test('a drill whose tune is in another tuning says so in its look, and comes back from tuning up', async () => {
  const app = await openWithDemo();
  const { page, url } = app;
  await page.getByLabel('the banjo is in').selectOption('gCGCD');
  await soon(() => tuningInHand(app)).toEqual([67, 48, 55, 60, 62]);
  const tune = await tuneNamed(app, 'Angeline the Baker');
  await page.goto(`${url}/drill/?passage=figure:${tune.id}:${tune.figures[0]?.id ?? ''}&minutes=4`);
  await page.getByText('This tune is in aDADE.').waitFor(SLOW);
  await page.getByRole('link', { name: 'Tune up' }).click();
  await button(page, /^The banjo is in double D now/).click();
  await page.waitForURL(/\/drill\//, SLOW);
  await page.locator('main.drill').waitFor(SLOW);
  expect(await page.getByText('This tune is in aDADE.').count()).toBe(0);
});
