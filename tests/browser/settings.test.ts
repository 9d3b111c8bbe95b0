import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { readBackup } from '../../src/lib/core/book/backup';
import type { Book } from '../../src/lib/core/book/book';
import { openApp, type OpenApp } from './harness';
import { button, chooseBackup, soon } from './learner';

/** 2026-11-25T23:30:00Z: half past midnight of the 26th in Prague. */
const LATE = Date.UTC(2026, 10, 25, 23, 30);

const holds = (page: Page) => page.locator('.holds');

async function openWithDemo(options: Parameters<typeof openApp>[0] = {}): Promise<OpenApp> {
  const app = await openApp({ ...options, path: '/tunes/' });
  await button(app.page, /demo tunes/).click();
  await app.page.locator('.list li').first().waitFor();
  await openSettings(app);
  return app;
}

async function openSettings({ page, url }: OpenApp) {
  await page.goto(`${url}/settings/`);
  await soon(() => holds(page).textContent()).toMatch(/passes/);
}

/** Saves a backup: the name of the file, its text, and the book in it. */
async function save(page: Page): Promise<{ name: string; text: string; book: Book }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    button(page, 'Save a backup').first().click(),
  ]);
  const text = gunzipSync(readFileSync(await download.path())).toString('utf8');
  const reading = readBackup(text);
  if (!reading.ok) throw new Error(reading.damage.join('; '));
  return { name: download.suggestedFilename(), text, book: reading.book };
}

async function erase(page: Page) {
  await button(page, /^Erase everything/).click();
  await button(page, 'Erase it all').click();
  await soon(() => holds(page).textContent()).toContain('0 tunes, 0 sittings, 0 passes');
}

test('a book is saved, erased and read back, record by record', async () => {
  const app = await openWithDemo({ clockMs: LATE, timezoneId: 'Europe/Prague' });
  const { page } = app;
  await page.getByRole('radio', { name: 'alternating' }).check();
  await soon(() => page.getByText('A comfortable pass').count()).toBe(1);
  const before = await save(page);
  expect(before.name).toBe('phrasewright-2026-11-26.json.gz');
  expect(before.book.sittings.length).toBeGreaterThan(20);

  await erase(page);
  expect(await page.getByRole('radio', { name: 'steady' }).isChecked()).toBe(true);

  await chooseBackup(page, before.name, before.text);
  const offer = page.getByRole('group', { name: /^Backup / });
  await soon(() => offer.textContent()).toContain('Merge them into this book?');
  expect(await holds(page).textContent()).toContain('0 tunes');
  await button(page, 'Merge them in').click();
  await soon(() => page.getByText(/^New in this book: 6 tunes/).count()).toBe(1);

  const after = await save(page);
  expect(after.book).toEqual(before.book);
  await chooseBackup(page, before.name, before.text);
  await button(page, 'Merge them in').click();
  await soon(() => page.getByText(/^No tune, sitting or pass in it was new/).count()).toBe(1);
  await openSettings(app);
  expect(await page.getByRole('radio', { name: 'alternating' }).isChecked()).toBe(true);
});

test('a damaged file is named, and changes nothing', async () => {
  const { page } = await openWithDemo();
  const { text, book } = await save(page);
  const damaged: [string, RegExp][] = [
    ['', /the file is empty/],
    [text.slice(0, 5000), /at line \d+, column \d+/],
    ['{"format":"something"}', /not a Phrasewright backup/],
    [text.replace('"goalTempo":', '"goalTempo":9'), /goal tempo.*outside/],
    [text.replace('"outcome":"clean"', '"outcome":"stumbled"'), /checksum does not fit/],
  ];
  for (const [content, fault] of damaged) {
    await chooseBackup(page, 'damaged.json', content);
    const trouble = page.getByRole('alert');
    await soon(() => trouble.textContent()).toMatch(fault);
    expect(await trouble.textContent()).toContain('Nothing was changed.');
    await button(page, 'Put it aside').click();
  }
  expect((await save(page)).book).toEqual(book);
});

test('the demo goes with one touch, and leaves what is the learner’s own', async () => {
  const { page } = await openWithDemo();
  const { book } = await save(page);
  const [tune] = book.tunes;
  if (!tune) throw new Error('The demo has no tunes.');
  await page.goto(new URL('/add/', page.url()).href);
  await page.getByLabel('Title').fill('Tin Lantern');
  await button(page, /Keep this tune/).click();
  await page.waitForURL(/\/drill\//);
  await page.goto(new URL('/settings/', page.url()).href);
  await button(page, 'Take the demo out').click();
  await soon(() => holds(page).textContent()).toContain('1 tune, 0 sittings');
  await soon(() => button(page, 'Take the demo out').count()).toBe(0);
  expect((await save(page)).book.tunes.map(({ title }) => title)).toEqual(['Tin Lantern']);
});

test('a deleted tune is brought back whole', async () => {
  const app = await openWithDemo();
  const { page, url } = app;
  const before = await save(page);
  const tune = before.book.tunes[0];
  await page.goto(`${url}/tune/?id=${tune?.id ?? ''}`);
  await button(page, 'Delete').click();
  await button(page, 'Delete it').click();
  await page.waitForURL(/\/tunes\//);
  await openSettings(app);
  expect(await holds(page).textContent()).toContain('1 of the tunes deleted');
  await button(page, /^Bring it back/).click();
  await soon(() => holds(page).textContent()).not.toContain('deleted');
  const brought = (await save(page)).book.tunes.find(({ id }) => id === tune?.id);
  expect({ ...brought, editedAt: tune?.editedAt }).toEqual(tune);
});

test('the click sounds for its two measures and stops by itself; what the keyboard changes is kept', async () => {
  const app = await openWithDemo({ args: ['--mute-audio'] });
  const { page } = app;
  await button(page, 'Hear the click').click();
  await button(page, 'Stop the click').waitFor();
  // two measures of 2/4 at 100 last 2.4 s
  const started = Date.now();
  await button(page, 'Hear the click').waitFor();
  expect(Date.now() - started).toBeGreaterThan(1500);

  const bands = page.getByRole('switch', { name: 'Three bands' });
  await bands.focus();
  await page.keyboard.press('Space');
  await soon(() => bands.getAttribute('aria-checked')).toBe('true');
  const volume = page.getByRole('slider', { name: 'Click' });
  await volume.focus();
  await page.keyboard.press('Home');
  await soon(() => volume.getAttribute('aria-valuetext')).toBe('off');
  // the slider says it at once, the book a moment later
  await soon(async () => {
    const { settings } = (await save(page)).book;
    return settings.find(({ key }) => key === 'clickVolume')?.value;
  }).toBe(0);
  await openSettings(app);
  await soon(() => bands.getAttribute('aria-checked')).toBe('true');
  expect(await volume.getAttribute('aria-valuetext')).toBe('off');
});

test('the sound of click and string is chosen in one place, tried there, and kept', async () => {
  const { page } = await openWithDemo({ args: ['--mute-audio'] });
  await page.getByRole('radio', { name: 'bell' }).check();
  await page.getByRole('radio', { name: 'eighths' }).check();
  const slide = async (name: string, key: string, says: string) => {
    const slider = page.getByRole('slider', { name });
    await slider.focus();
    await page.keyboard.press(key);
    await soon(() => slider.getAttribute('aria-valuetext')).toBe(says);
  };
  await slide('Swing', 'End', '2 to 1');
  await slide('String', 'End', 'full, 20 of 20');
  await slide('The beat on the screen', 'End', '300 ms later');
  await page.getByRole('switch', { name: 'Counted aloud' }).click();
  await page.getByRole('switch', { name: 'Silent bars' }).click();
  await button(page, 'Measures that sound: 1 more').click();

  await button(page, 'Hear the string').click();
  await button(page, 'Stop the string').waitFor();
  await button(page, 'Hear the string').waitFor();
  // the pulse goes on until it is stopped, and its block lights up with it
  await button(page, 'Try it').click();
  await page.locator('.beat.lit').waitFor();
  await page.locator('.beat:not(.lit)').waitFor();
  await page.locator('.beat.lit').waitFor();
  // another sample takes its place
  await button(page, 'Hear the click').click();
  await button(page, 'Stop the click').waitFor();
  await button(page, 'Try it').waitFor();

  await page.reload();
  await soon(() => holds(page).textContent()).toMatch(/passes/);
  for (const name of ['bell', 'eighths']) {
    expect(await page.getByRole('radio', { name }).isChecked(), name).toBe(true);
  }
  for (const [name, says] of [
    ['Swing', '2 to 1'],
    ['String', 'full, 20 of 20'],
    ['The beat on the screen', '300 ms later'],
  ] as const) {
    expect(await page.getByRole('slider', { name }).getAttribute('aria-valuetext'), name).toBe(says);
  }
  const spoken = page.getByRole('switch', { name: 'Counted aloud' });
  expect(await spoken.getAttribute('aria-checked')).toBe('true');
  expect(await page.getByLabel('Measures that sound', { exact: true }).inputValue()).toBe('3');
});
