import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { writeMusicXml } from '../../src/lib/core/notation/musicxml/write-musicxml';
import { scoreOfTune } from '../../src/lib/core/notation/score-of-tune';
import { firstLayer } from '../../src/lib/core/tune/places';
import { madeTune } from '../core/notation/made-tune';
import { openApp } from './harness';
import { button, installOffline, isUsable, SLOW } from './learner';

/** Page objects of a PDF as the browser writes it (ISO 32000-1, 7.7.3.3: `/Type /Page`); its page tree is `/Pages`. */
async function pages(page: Page, format: 'A4' | 'Letter'): Promise<number> {
  const pdf = (await page.pdf({ format })).toString('latin1');
  return (pdf.match(/\/Type\s*\/Page(?!\w)/g) ?? []).length;
}

async function addNotation(page: Page, url: string, notation: string): Promise<void> {
  await page.goto(`${url}/add/`);
  await page.getByText('Paste notation').click();
  await page.getByLabel('Notation as text').fill(notation);
  await button(page, 'Look at it').click();
  await button(page, 'Add to my book').click(SLOW);
  await page.waitForURL(/\/tune\/\?id=/, SLOW);
  await isUsable(page);
}

/** From the board to the sheet by the keyboard, as a learner would go. */
async function openSheet(page: Page): Promise<void> {
  await button(page, 'Share').press('Enter');
  await page.getByRole('link', { name: /^Practice sheet/ }).press('Enter');
  await page.waitForURL(/\/sheet\/\?/, SLOW);
  await isUsable(page);
}

test('a whole tune goes on one page of either paper, black on white, without what is not for paper; offline', async () => {
  const { page, url, offline } = await openApp({ offlineCopy: true, colorScheme: 'dark' });
  await installOffline(page);
  await offline();
  for (const parts of [2, 5]) {
    const tune = madeTune(`A tune of ${String(parts)} parts`, parts, 1);
    await addNotation(page, url, writeMusicXml(scoreOfTune(tune, firstLayer(tune).id)));
    await openSheet(page);
    await page.getByText('one page, A4 or US Letter').waitFor(SLOW);
    expect(await pages(page, 'A4')).toBe(1);
    expect(await pages(page, 'Letter')).toBe(1);

    await page.emulateMedia({ media: 'print' });
    const paper = page.locator('.paper');
    expect(await paper.getByRole('heading').allTextContents()).toEqual([
      `A tune of ${String(parts)} parts`,
      ...['A', 'B', 'C', 'D', 'E'].slice(0, parts).map((name) => `Part ${name}, twice`),
      'Notes',
    ]);
    await paper.getByText(`${String(parts * 8)} measures, `).waitFor();
    await paper.getByText('gDGBD · ').waitFor();
    expect(await paper.locator('dl').innerText()).toMatch(/Start at\s+\d+\s+Goal\s+112/);
    // two figures for each part but the last: its marked measures are drawn, in its last line and the next one's first
    expect(await paper.locator('svg > path[transform]').count()).toBeGreaterThanOrEqual(2 * (parts - 1));
    const words = page.locator('nav, button, a');
    for (const index of Array.from({ length: await words.count() }, (_, one) => one)) {
      expect(await words.nth(index).isVisible()).toBe(false);
    }
    const colours = await paper.evaluate((element) => [
      getComputedStyle(document.documentElement).backgroundColor,
      getComputedStyle(element).color,
    ]);
    expect(colours).toEqual(['rgb(255, 255, 255)', 'rgb(0, 0, 0)']);
    await page.emulateMedia({ media: 'screen' });
  }
}, 60_000);

test('a melody without tab has its sheet, one of very many measures says that it takes two pages', async () => {
  const { page, url } = await openApp();
  const line = '|:G2B2 d2g2|a2g2 e4|d2B2 G2A2|B2A2 G4:|\n';
  await addNotation(page, url, `X:1\nT:Sung only\nM:2/4\nL:1/16\nK:G\n${line}`);
  await openSheet(page);
  await page.getByText('one page, A4 or US Letter').waitFor(SLOW);
  await page.locator('.paper .staff').first().waitFor(SLOW);
  expect(await pages(page, 'A4')).toBe(1);

  const tune = madeTune('Without end', 12);
  await addNotation(page, url, writeMusicXml(scoreOfTune(tune, firstLayer(tune).id)));
  await openSheet(page);
  await page.getByText('2 pages, A4 or US Letter').waitFor(SLOW);
  expect(await pages(page, 'A4')).toBe(2);
  expect(await pages(page, 'Letter')).toBe(2);
}, 60_000);
