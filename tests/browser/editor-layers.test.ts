import { readFileSync } from 'node:fs';
import type axe from 'axe-core';
import { expect, test } from 'vitest';
import { cell, fret, held, openMeasure, keptDraft } from './editor';
import { openApp } from './harness';
import { addTune, button, readKept, SLOW, soon } from './learner';

const MELODY = 'X:1\nT:Gate Field\nM:2/4\nL:1/8\nK:G\nDG BG|(3ABc d2|\n';

test('a melody stands over the grid, and becomes tab beside it; chords and words are kept', async () => {
  const { page } = await openApp({ path: '/add/' });
  await page.getByText('Paste notation').click();
  await page.getByLabel('Notation as text').fill(MELODY);
  await button(page, 'Look at it').click();
  await button(page, 'Add to my book').click();
  await page.waitForURL(/\/tune\/\?id=/, SLOW);

  await openMeasure(page, 1);
  // a triplet has its own places: A, B and C in the first beat
  await cell(page, /^beat one, first string: nothing, melody A$/).waitFor(SLOW);
  await cell(page, /^beat one, a, second string: nothing, melody C$/).waitFor(SLOW);
  await openMeasure(page, 0);
  await cell(page, /^beat one, first string: nothing, melody D$/).waitFor(SLOW);
  await page.getByRole('radio', { name: 'Pattern' }).check({ force: true });
  await button(page, 'Tab from the melody').click();
  await page.getByText('Every note of the melody is on the neck.').waitFor(SLOW);
  await cell(page, /^beat one, first string: strike open, melody D$/).waitFor(SLOW);

  await page.getByRole('radio', { name: 'Place' }).check({ force: true });
  await page.getByLabel('Chord, beat one').fill('G');
  await page.getByLabel('Word, beat one').fill('Oh');
  await page.getByLabel('Word, beat one').blur();
  await page.evaluate(readFileSync('node_modules/axe-core/axe.min.js', 'utf8'));
  const found = await page.evaluate(() => (globalThis as unknown as { axe: typeof axe }).axe.run(document));
  expect(found.violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
  await button(page, 'Save').click();
  await page.getByText('Saved.').waitFor(SLOW);
  // D4, G4, B4 and G4 on a first string of D4 (gDGBD): frets 0, 5, 9 and 5
  expect((await held(page))[0]).toEqual([
    '0/1 1:0 strike',
    '1/8 1:5 strike',
    '1/4 1:9 strike',
    '3/8 1:5 strike',
  ]);
  const [measure] = (await readKept(page)).tunes[0]?.parts[0]?.measures ?? [];
  expect(measure).toMatchObject({
    labels: [
      { onset: [0, 1], kind: 'chord', text: 'G' },
      { onset: [0, 1], kind: 'word', text: 'Oh' },
    ],
  });
});

test('a measure that a layer changes goes back to the layer below, and says what becomes of its passes', async () => {
  const { page } = await openApp({ viewport: { width: 1280, height: 800 } });
  await button(page, 'Try it with the demo tunes').click();
  await page.locator('.plan ol li').first().waitFor(SLOW);
  const changed = async (): Promise<number> => {
    const tune = (await readKept(page)).tunes.find(({ title }) => title === 'Old Joe Clark');
    return Object.keys(tune?.layers[1]?.changes ?? {}).length;
  };
  expect(await changed()).toBe(7);
  await openMeasure(page, 0, 'Old Joe Clark', 1);
  await cell(page, /^beat one, e, second string: drop-thumb open$/).waitFor(SLOW);
  await button(page, 'As in plain').click();
  await cell(page, /^beat one, e, second string: nothing$/).waitFor(SLOW);
  await button(page, 'Undo').click();
  await cell(page, /^beat one, e, second string: drop-thumb open$/).waitFor(SLOW);
  await button(page, 'As in plain').click();
  await button(page, 'Save').click();
  await button(page, 'Only A1').click();
  await page
    .getByText('Saved. A1 takes over the passes of the plain layer; those so far stay with A5.')
    .waitFor(SLOW);
  expect(await changed()).toBe(6);

  // B4 stands alone in both layers: its figure is the plain one's, so a change here begins a new one
  await openMeasure(page, 11, 'Old Joe Clark', 1);
  await button(page, 'Half a beat longer').click();
  await page.getByText('2½ beats').waitFor(SLOW);
  await page.getByText(/^B4 begins without passes; those so far stay with/).waitFor(SLOW);
});

test('a draft of a measure that has changed since is set aside; one of an older version is taken over', async () => {
  const { page, context } = await openApp({ path: '/add/' });
  await addTune(page, { title: 'Far Barn', shared: [['A2', 'A1']] });
  await openMeasure(page, 0);
  await cell(page, /^beat one, first string/).click();
  await fret(page, 5).click();
  await cell(page, /^beat one, first string: strike fret 5/).waitFor(SLOW);
  await soon(() => keptDraft(page)).toMatchObject({ writing: { strikes: [{ fret: 5 }] } });
  const url = page.url();
  const other = await context.newPage();
  await other.goto(url);
  await page.close();

  // the tab is gone before it saved, and the measure changes by way of the one that shares it
  await openMeasure(other, 1);
  await cell(other, /^beat one, first string/).click();
  await fret(other, 7).click();
  await button(other, 'Save').click();
  await button(other, 'Change both').click();
  await other.getByText(/^Saved\./).waitFor(SLOW);
  expect((await held(other))[0]).toEqual(['0/1 1:7 strike']);
  await other.close();
  const again = await context.newPage();
  await again.goto(url);
  await again.getByText('This measure was written elsewhere too.').waitFor(SLOW);
  await cell(again, /^beat one, first string: strike fret 7/).waitFor(SLOW);
  await button(again, 'Write it here').click();
  await cell(again, /^beat one, first string: strike fret 5/).waitFor(SLOW);
  await button(again, 'Undo').click();
  await cell(again, /^beat one, first string: strike fret 7/).waitFor(SLOW);

  const [tuneId, layerId] = ['tune', 'layer'].map((name) => new URL(url).searchParams.get(name));
  const next = (await readKept(again)).tunes[0]?.parts[0]?.measures[2]?.id;
  const key = `phrasewright-measure ${tuneId} ${layerId} ${next}`;
  const strikes = [{ onset: [0, 1], duration: [1, 2], string: 2, fret: 1, technique: 'strike' }];
  const old = JSON.stringify({ beats: 2, strikes, labels: [] });
  await again.evaluate(([name = '', text = '']) => localStorage.setItem(name, text), [key, old]);
  await openMeasure(again, 2);
  await cell(again, /^beat one, second string: strike fret 1/).waitFor(SLOW);
  expect(await again.evaluate((name) => localStorage.getItem(name), key)).toBeNull();
});
