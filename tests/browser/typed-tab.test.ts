import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import { begin, button, markNext, readKept, SLOW, soon } from './learner';

/** The five-line systems of a typed tab, as the columns between their bar lines. */
function typedMeasures(text: string): string[] {
  const rows = text.split('\n').map((line) => /^\S*?(\|.*\|)\s*$/.exec(line)?.[1]);
  const measures: string[] = [];
  for (let row = 0; row + 4 < rows.length; row++) {
    const system = rows.slice(row, row + 5).map((line) => line?.split('|').slice(1, -1));
    const first = system[0];
    if (!first || system.some((cells) => cells?.length !== first.length)) continue;
    for (const index of first.keys()) measures.push(system.map((cells) => cells?.[index]).join('\n'));
    row += 4;
  }
  return measures;
}

test('typed tab is pasted, its measures and their sharing are found, and the drill shows it', async () => {
  const text = readFileSync('sample-data/tunes/old-joe-clark.txt', 'utf8');
  const tab = text.slice(text.indexOf('A part'));
  const typed = typedMeasures(tab);
  expect(typed).toHaveLength(16);
  const { page } = await openApp({ path: '/add/', hasTouch: true });
  await page.getByLabel('Title').fill('Old Joe Clark');
  await page.getByText('Paste typed tab').click();
  await page.getByLabel('Typed tab').fill(tab);
  await page.getByText(`16 measures, ${new Set(typed).size} to learn.`).waitFor(SLOW);
  await button(page, /^Keep this tune/).click();
  await page.locator('main.drill').waitFor(SLOW);

  const [tune] = (await readKept(page)).tunes;
  const figures = tune?.parts.flatMap(({ measures }) => measures.map(({ figureId }) => figureId)) ?? [];
  expect(tune?.parts.map(({ name, measures }) => name + String(measures.length))).toEqual(['A8', 'B8']);
  expect(figures.map((id) => figures.indexOf(id))).toEqual(typed.map((measure) => typed.indexOf(measure)));
  expect(tune?.figures.every(({ strikes }) => strikes !== null)).toBe(true);

  // by the file itself: frets 0 2 3 2 on the first string, the short string open after each beat's second strike
  const told = /first string open.*drone.*first string third fret.*drone/;
  await page.getByRole('img', { name: told }).waitFor(SLOW);
  const frets = page.locator('.tab .fret');
  const shown = async () => [...(await frets.allTextContents()).join('')].sort();
  expect(await shown()).toEqual(['0', '0', '0', '2', '2', '3']);

  await begin(page);
  while ((await readKept(page)).passes.length < 2) await markNext(page, 1);
  await page.getByText('from memory', { exact: true }).waitFor(SLOW);
  await page.getByRole('img', { name: 'Tab hidden' }).waitFor(SLOW);
  const peek = button(page, 'Hold to peek at the tab');
  await peek.hover();
  await page.mouse.down();
  await soon(async () => (await shown()).length).toBe(6);
  await page.mouse.up();
  await soon(() => frets.count()).toBe(0);
});

test('what cannot be read is said in words, and what can be read is kept', async () => {
  const { page } = await openApp({ path: '/add/' });
  await page.getByText('Paste typed tab').click();
  const typed = page.getByLabel('Typed tab');
  await typed.fill(readFileSync('tests/fixtures/tab/half-readable/input.txt', 'utf8'));
  await page.locator('.warnings li').first().waitFor(SLOW);
  expect(await page.locator('.warnings').innerText()).toMatch(/line \d+/i);
  await typed.fill(readFileSync('tests/fixtures/tab/labelled-two-parts/input.txt', 'utf8'));
  await soon(() => page.getByLabel('Title').inputValue()).not.toBe('');
  await page.getByText('4 measures, 3 to learn.').waitFor(SLOW);
});
