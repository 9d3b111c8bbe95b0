import { rmSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright';
import { expect, inject, test } from 'vitest';
import { seeded } from '../bench/random';
import { makeProfile } from './harness';
import { startKillable } from './kill/killable';
import { addTune, button, isUsable, outcomes, readKept, SLOW, soon } from './learner';

const SEED = Number(process.env['PHRASEWRIGHT_SEED'] ?? Date.now() % 1_000_000);
/** Kills in the middle of an import, and as many in the middle of putting back what was lost. */
const KILLS = 4;
const TIMEOUT_MS = 600_000;

/** Where Chromium keeps an origin's database, and its private files, in a profile. */
const DATABASE = path.join('Default', 'IndexedDB');
const FILES = path.join('Default', 'File System');

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** What a learner would miss: every record, with the open sitting as the log that it is. */
async function holdings(page: Page) {
  const { tunes, sittings, passes, settings } = await readKept(page);
  return {
    tunes: tunes.map(({ id, title }) => [id, title]),
    sittings: sittings.map(({ id, log }) => [id, log.length]),
    passes: outcomes(passes.map(({ entry }) => entry)),
    settings: settings.map(({ key, value }) => [key, value]),
  };
}

console.log(`Kills on the way: PHRASEWRIGHT_SEED=${SEED} repeats their times.`);

test(
  'an import is whole or not at all, and either copy of the book comes back from the other, wherever a kill falls',
  async () => {
    const random = seeded(SEED);
    const url = inject('appUrl');
    const profile = makeProfile();

    /** Opens the app on the profile, does something, and kills the browser. */
    async function visit<T>(at: string, work: (page: Page) => Promise<T>): Promise<T> {
      const browser = await startKillable(profile);
      try {
        await browser.page.goto(url + at);
        return await work(browser.page);
      } finally {
        await browser.kill();
      }
    }
    const askToMerge = async (page: Page): Promise<void> => {
      await page.locator('input[type=file]').setInputFiles('sample-data/demo-book.json');
      await button(page, 'Merge them in').click(SLOW);
    };

    const counts = new Set<number>();
    for (let kill = 0; kill < KILLS; kill += 1) {
      await visit('/settings/', async (page) => {
        await isUsable(page);
        counts.add((await readKept(page)).sittings.length);
        await askToMerge(page);
        await wait(random() * 1500);
      });
    }
    const before = await visit('/settings/', async (page) => {
      await isUsable(page);
      counts.add((await readKept(page)).sittings.length);
      await askToMerge(page);
      await page.getByText(/^(New in this book|No tune, sitting or pass)/).waitFor(SLOW);
      await page.goto(`${url}/add/`);
      await addTune(page, { title: 'Twice Kept', goal: 300 });
      await page.locator('.touch').click(SLOW);
      while ((await readKept(page)).passes.length < 2) {
        await page.locator('.drill.breathing').waitFor(SLOW);
        await page.locator('.touch').click(SLOW);
        await page.locator('.drill:not(.breathing)').waitFor(SLOW);
      }
      await button(page, 'End').click(SLOW);
      await page.getByText(/came out clean/).waitFor(SLOW);
      return holdings(page);
    });
    expect(before.passes.length).toBeGreaterThanOrEqual(2);
    expect([...counts].filter((count) => count !== 0 && count !== before.sittings.length)).toEqual([]);

    const whole = (): Promise<void> =>
      visit('/tunes/', async (page) => {
        await page.getByText('Twice Kept').first().waitFor(SLOW);
        await soon(() => holdings(page)).toEqual(before);
      });
    for (const lost of [DATABASE, FILES, DATABASE]) {
      rmSync(path.join(profile, lost), { recursive: true });
      for (let kill = 0; kill < KILLS / 2; kill += 1) await visit('/', () => wait(random() * 1200));
      await whole();
    }
  },
  TIMEOUT_MS,
);
