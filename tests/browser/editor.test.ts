import { readFileSync } from 'node:fs';
import type axe from 'axe-core';
import { expect, test } from 'vitest';
import { passageKey } from '../../src/lib/core/tune/passage';
import { cell, fret, held, openMeasure } from './editor';
import { openApp } from './harness';
import { addTune, button, readKept, SLOW, soon } from './learner';

const A1 = ['0/1 1:2 strike', '1/8 1:0 brush', '3/16 5:0 drone'];

test('a measure is written by touch from nothing, saved on the way to the next, and the drill shows it', async () => {
  const { page } = await openApp({ path: '/add/', hasTouch: true });
  await addTune(page, { title: 'Old Marl Pit' });
  await openMeasure(page, 0);
  await cell(page, /^beat one, first string/).tap();
  await fret(page, 2).tap();
  await button(page, 'Fill').tap();
  await cell(page, /^beat one, first string: strike fret 2/).waitFor(SLOW);
  await cell(page, /^beat one, a, short string: drone open/).waitFor(SLOW);

  await page.evaluate(readFileSync('node_modules/axe-core/axe.min.js', 'utf8'));
  const found = await page.evaluate(() => (globalThis as unknown as { axe: typeof axe }).axe.run(document));
  expect(found.violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);

  // every target a thumb needs is 48 px or more, and on the screen
  for (const target of [
    fret(page, 12),
    button(page, 'pull-off'),
    button(page, 'Undo'),
    cell(page, /^beat two, first/),
  ]) {
    const box = await target.boundingBox();
    expect(box?.height).toBeGreaterThanOrEqual(48);
    expect(box?.width).toBeGreaterThanOrEqual(48);
    expect((box?.y ?? 1000) + (box?.height ?? 0)).toBeLessThanOrEqual(844);
  }

  await page.getByRole('link', { name: /^Save, on to A2/ }).tap();
  await page.getByRole('heading', { name: /^Measure A2/ }).waitFor(SLOW);
  expect((await held(page))[0]).toEqual(A1);
  expect((await held(page))[1]).toBeNull();

  await page.getByRole('radio', { name: 'Measure' }).check({ force: true });
  await button(page, 'Copy A1, the one before').tap();
  await button(page, 'One beat longer').tap();
  await cell(page, /^beat three, first string/).tap();
  await button(page, 'Save').tap();
  await page.getByText('Saved.').waitFor(SLOW);
  expect((await held(page))[1]).toEqual(A1);

  const tune = (await readKept(page)).tunes[0];
  const figureId = tune?.parts[0]?.measures[0]?.figureId ?? '';
  const passage = { kind: 'figure' as const, tuneId: tune?.id ?? '', figureId };
  await page.goto(`${new URL(page.url()).origin}/drill/?passage=${encodeURIComponent(passageKey(passage))}`);
  await page.getByRole('img', { name: /first string second fret.*brush.*drone/ }).waitFor(SLOW);
});

test('a measure is written by keyboard alone, undone and redone; a shared one asks once', async () => {
  const { page } = await openApp({ path: '/add/', viewport: { width: 1280, height: 800 } });
  await page.getByText('Paste typed tab').click();
  await page
    .getByLabel('Typed tab')
    .fill(readFileSync('tests/fixtures/tab/labelled-two-parts/input.txt', 'utf8'));
  await page.getByText('4 measures, 3 to learn.').waitFor(SLOW);
  await button(page, /^Keep this tune/).click();
  await page.locator('main.drill').waitFor(SLOW);
  const before = await held(page);
  expect(before[0]).toEqual(before[3]);
  await openMeasure(page, 0);
  await soon(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(
    /^beat one, first string/,
  );
  const keys = async (...list: string[]) => {
    for (const key of list) await page.keyboard.press(key);
  };
  await keys('1', '2', 'p', 'Control+z', 'Control+z', 'Control+z', 'Control+Shift+z', 'Control+Shift+z');
  await cell(page, /^beat one, first string: strike fret 12/).waitFor(SLOW);
  await keys('ArrowRight', 'ArrowDown', '3', 'h');
  await cell(page, /second string: hammer-on fret 3/).waitFor(SLOW);
  await keys('Delete');
  await cell(page, /^beat one, e, second string: nothing/).waitFor(SLOW);

  const focused = () =>
    soon(() =>
      page.evaluate(
        () =>
          (document.activeElement as HTMLElement | null)?.ariaLabel ?? document.activeElement?.textContent,
      ),
    );
  await keys('Control+s');
  await page.getByText('A1 and B2 share this measure.').waitFor(SLOW);
  await focused().toBe('Only A1');
  await keys('Escape');
  await focused().toMatch(/^beat one, e, second string/);
  await keys('Control+s');
  await focused().toBe('Only A1');
  await keys('Enter');
  await page.getByText('Saved.').waitFor(SLOW);
  await focused().toMatch(/^beat one, e, second string/);
  const only = await held(page);
  expect(only[0]?.[0]).toBe('0/1 1:12 strike');
  expect(only.slice(1)).toEqual(before.slice(1));

  // A1 given back its old content shares again, and this time both change
  await cell(page, /^beat one, first string/).focus();
  await keys('0', 'ArrowRight', 'ArrowDown', 'Delete');
  await button(page, 'Save').click();
  await soon(() => held(page)).toEqual(before);
  await cell(page, /^beat one, first string/).focus();
  await keys('4');
  await button(page, 'Save').click();
  await button(page, 'Change both').click();
  await soon(async () => (await held(page))[3]?.[0]).toBe('0/1 1:4 strike');
  expect((await held(page))[0]).toEqual((await held(page))[3]);
});

test('what was not saved is there after the tab was closed', async () => {
  const { page, context } = await openApp({ path: '/add/' });
  await addTune(page, { title: 'Far Barn' });
  await openMeasure(page, 1);
  await cell(page, /^beat two, third string/).click();
  await fret(page, 4).click();
  await cell(page, /^beat two, third string: strike fret 4/).waitFor(SLOW);
  const url = page.url();
  await page.close();

  const again = await context.newPage();
  await again.goto(url);
  await cell(again, /^beat two, third string: strike fret 4/).waitFor(SLOW);
  await again.getByText('Taken up where you left it.').waitFor(SLOW);
  expect((await held(again))[1]).toBeNull();
  await button(again, 'Save').click();
  await again.getByText('Saved.').waitFor(SLOW);
  expect((await held(again))[1]).toEqual(['1/4 3:4 strike']);
});
