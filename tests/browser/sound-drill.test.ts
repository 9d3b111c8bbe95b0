import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { openApp, type OpenApp } from './harness';
import { addTune, begin, button, isUsable, readKept, SLOW, soon, touch, wordIs } from './learner';

/** Keeps a tune of our fixtures with its tab and ends on the drill of its first measure. */
async function addWithTab(page: Page, goal = 200): Promise<void> {
  await page.getByText('Paste typed tab').click();
  const text = readFileSync('sample-data/tunes/old-joe-clark.txt', 'utf8');
  await page.getByLabel('Typed tab').fill(text.slice(text.indexOf('A part')));
  await page.getByText(/With its tab/).waitFor(SLOW);
  await addTune(page, { title: 'Old Joe Clark', goal });
  await wordIs(page, /look/);
}

const openOnDrill = async (options: Parameters<typeof openApp>[0] = {}): Promise<OpenApp> => {
  const app = await openApp({ ...options, path: '/add/', hasTouch: true });
  await isUsable(app.page);
  await addWithTab(app.page);
  return app;
};

const setting = async (page: Page, key: string) =>
  (await readKept(page)).settings.find((row) => row.key === key)?.value;
const bigTempo = (page: Page) => page.locator('.touch .bpm').innerText();

test('a passage is heard at its goal tempo by one touch, tells where it is, and ends by itself', async () => {
  const { page } = await openOnDrill();
  const before = await bigTempo(page);
  await button(page, 'Hear it').click();
  await button(page, 'Stop').waitFor(SLOW);
  await wordIs(page, /^listen$/);
  expect(await bigTempo(page)).toBe('200');
  // the measure lights up beat by beat while it sounds
  await page
    .locator('.stage rect.now')
    .first()
    .waitFor({ ...SLOW, state: 'attached' });
  await button(page, 'Hear it').waitFor(SLOW);
  await wordIs(page, /^look$/);
  expect(await bigTempo(page)).toBe(before);
  // listening is no practice: nothing was begun
  const { sitting, drills } = await readKept(page);
  expect([sitting.length, drills.length]).toEqual([0, 0]);
});

test('it is heard slowly, over and over, in call and answer, until a touch begins the drill', async () => {
  const { page } = await openOnDrill();
  const first = await bigTempo(page);
  await button(page, 'Sound').click();
  await page.getByRole('radio', { name: /^slowly/ }).check();
  await page.getByRole('radio', { name: 'call and answer' }).check();
  await page.getByRole('radio', { name: 'melody only' }).check();
  await button(page, 'Sound').click();
  await button(page, 'Hear it').click();
  await wordIs(page, /^listen$/);
  expect(await bigTempo(page)).toBe(first);
  await wordIs(page, /^your turn$/);
  await wordIs(page, /^listen$/);
  await touch(page);
  await wordIs(page, /^(count-in|pass 1)$/);
  await button(page, 'Hear it').waitFor(SLOW);
});

test('"Hear it" in the middle of a pass pauses the drill, and the drill goes on by the touch', async () => {
  const { page } = await openOnDrill();
  await begin(page);
  await wordIs(page, /^pass 1$/);
  await button(page, 'Hear it').click();
  await wordIs(page, /^listen$/);
  await button(page, 'Stop').click();
  await wordIs(page, /^paused$/);
  await touch(page);
  await wordIs(page, /^pass 1$/);
});

test('click off, silent bars and the climb are chosen in the drill without leaving it, and kept', async () => {
  const { page } = await openOnDrill();
  await begin(page);
  await button(page, 'Sound').click();
  await page.getByRole('radio', { name: /^off, but/ }).check();
  await page.getByText('The count-in still clicks').waitFor(SLOW);
  await page.getByRole('switch', { name: 'Silent bars' }).click();
  await button(page, 'Measures in silence: 1 more').click();
  await page.getByRole('radio', { name: 'alternating' }).check();
  await soon(() => setting(page, 'clickPattern')).toBe('silent');
  await soon(() => setting(page, 'silentMeasures')).toEqual({ on: 2, off: 3 });
  await soon(() => setting(page, 'climb')).toBe('alternating');
  // the drill has gone on meanwhile, and the passes keep coming without a click
  await wordIs(page, /^pass \d$/);
  await page.reload();
  await page.locator('main.drill').waitFor(SLOW);
  await button(page, 'Sound').click();
  expect(await page.getByRole('radio', { name: /^off, but/ }).isChecked()).toBe(true);
  expect(await page.getByLabel('Measures in silence', { exact: true }).inputValue()).toBe('3');
});

test('by keyboard alone: H hears and stops, S opens what sounds, Escape closes it before it ends the drill', async () => {
  const { page } = await openOnDrill();
  const press = (key: string) => page.keyboard.press(key);
  await press('s');
  const tempo = page.getByRole('radio', { name: /^at the goal tempo/ });
  await tempo.focus();
  await press('ArrowRight');
  expect(await page.getByRole('radio', { name: /^slowly/ }).isChecked()).toBe(true);
  // arrows on a choice are no touch of the pedal
  await wordIs(page, /^look$/);
  await press('Escape');
  await soon(() => button(page, 'Sound').getAttribute('aria-expanded')).toBe('false');
  expect(await button(page, 'Sound').evaluate((element) => element === document.activeElement)).toBe(true);
  await press('h');
  await wordIs(page, /^listen$/);
  await press('h');
  await wordIs(page, /^look$/);
  await press('ArrowDown');
  await wordIs(page, /^(count-in|pass 1)$/);
});

test('a passage without tab says so, and is heard as its click', async () => {
  const { page } = await openApp({ path: '/add/', hasTouch: true });
  await addTune(page, { title: 'Tin Lantern', goal: 240 });
  await page.getByText('No tab yet: only the click.').waitFor(SLOW);
  await button(page, 'Sound').click();
  expect(await page.getByRole('radio', { name: 'call and answer' }).count()).toBe(0);
  await button(page, 'Hear it').click();
  await wordIs(page, /^listen$/);
  await button(page, 'Hear it').waitFor(SLOW);
});

test('without sound the sentence is plain and the drill goes on', async () => {
  const { page, context, url } = await openApp({ path: null, hasTouch: true });
  await context.addInitScript(() => {
    Reflect.deleteProperty(globalThis, 'AudioContext');
  });
  await page.goto(`${url}/add/`);
  await isUsable(page);
  await addWithTab(page);
  await button(page, 'Hear it').click();
  await page.getByText('This browser cannot play the click. You can still drill without it.').waitFor(SLOW);
  await button(page, 'Hear it').waitFor(SLOW);
  await touch(page);
  await page.locator('.drill.breathing').waitFor(SLOW);
});

test('the lock screen is told tune and passage, and its pause and play are heeded', async () => {
  const { page, context, url } = await openApp({ path: null, hasTouch: true });
  await context.addInitScript(() => {
    const handlers = new Map<string, (() => void) | null>();
    Object.assign(globalThis, { press: (action: string) => handlers.get(action)?.() });
    navigator.mediaSession.setActionHandler = (action, handler) => {
      handlers.set(action, handler as (() => void) | null);
    };
  });
  await page.goto(`${url}/add/`);
  await isUsable(page);
  await addWithTab(page);
  const shown = () =>
    page.evaluate(() => {
      const { metadata, playbackState } = navigator.mediaSession;
      return [metadata?.title, metadata?.artist, playbackState];
    });
  const pressKey = (action: string) =>
    page.evaluate((name) => {
      (globalThis as unknown as { press: (action: string) => void }).press(name);
    }, action);
  await begin(page);
  await soon(shown).toEqual(['Old Joe Clark', 'Measure 1, part A', 'playing']);
  await pressKey('pause');
  await wordIs(page, /^paused$/);
  await soon(shown).toEqual(['Old Joe Clark', 'Measure 1, part A', 'paused']);
  await pressKey('play');
  await wordIs(page, /^(count-in|pass 1)$/);
});

test('one tab may listen while another drills, but not drill beside it', async () => {
  const { page, context, url } = await openOnDrill();
  await begin(page);
  const [tune] = (await readKept(page)).tunes;
  const other = await context.newPage();
  await other.goto(`${url}/tune/?id=${tune?.id ?? ''}`);
  await isUsable(other);
  await button(other, 'How it sounds').click();
  await other.getByRole('radio', { name: 'over and over' }).check();
  await button(other, 'Hear it').click();
  await button(other, 'Stop').waitFor(SLOW);
  await other.waitForTimeout(1500);
  expect(await button(other, 'Stop').count()).toBe(1);
  await button(other, 'Stop').click();
  await button(other, 'Hear it').waitFor(SLOW);
  await other.getByRole('link', { name: /^Drill/ }).click();
  await other.getByText('A drill is open in another tab or window.').waitFor(SLOW);
});

test('the whole form is heard from the board, and stops by a touch', async () => {
  const { page, url } = await openOnDrill();
  const [tune] = (await readKept(page)).tunes;
  await page.goto(`${url}/tune/?id=${tune?.id ?? ''}`);
  await isUsable(page);
  await button(page, /^The whole tune/).click();
  await button(page, 'Hear it').click();
  await button(page, 'Stop').waitFor(SLOW);
  await page.waitForTimeout(1500);
  await button(page, 'Stop').click();
  await button(page, 'Hear it').waitFor(SLOW);
});

test('an edit in another tab: another goal leaves the drill going, another meter stops it at a look', async () => {
  const { page, context, url } = await openOnDrill();
  await begin(page);
  await page.locator('.drill.breathing').waitFor(SLOW);
  await touch(page);
  await soon(async () => (await readKept(page)).passes.length).toBe(1);
  const [tune] = (await readKept(page)).tunes;
  const other = await context.newPage();
  const edit = async (change: () => Promise<unknown>) => {
    await other.goto(`${url}/edit/?id=${tune?.id ?? ''}`);
    await isUsable(other);
    await change();
    await other.locator('.dock button[type=submit]').click();
    await other.waitForURL(/\/tune\//, SLOW);
  };
  await edit(async () => {
    await other.getByLabel(/^Goal/).fill('90');
    await other.keyboard.press('Tab');
  });
  await soon(async () => (await readKept(page)).tunes[0]?.goalTempo).toBe(90);
  await page.waitForTimeout(1000);
  expect(await page.getByText('The tune was edited meanwhile').count()).toBe(0);
  expect(await page.locator('.touch .word').innerText()).not.toBe('look');

  await edit(() => other.getByLabel('Meter').selectOption('4/4'));
  await page.getByText('The tune was edited meanwhile').waitFor(SLOW);
  await wordIs(page, /^(look|ready)$/);
  expect((await readKept(page)).passes.length).toBeGreaterThanOrEqual(1);
});
