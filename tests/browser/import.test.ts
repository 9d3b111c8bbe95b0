import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import { button, readKept, SLOW } from './learner';

const JOE = 'sample-data/tunes/old-joe-clark.txt';

test('a file is looked at before it is added, with the keyboard alone, and its board opens', async () => {
  const { page } = await openApp({ path: '/add/' });
  await page.getByLabel('Notation file').setInputFiles(JOE);
  await button(page, 'Add to my book').waitFor(SLOW);
  await page.getByText('16 measures, ').waitFor(SLOW);
  expect((await readKept(page)).tunes).toEqual([]);

  await page.getByLabel('Title').focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('<script>document.title = "gone"</script>');
  await button(page, 'Add to my book').focus();
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/tune\/\?id=/, SLOW);
  await page.getByRole('heading', { name: '<script>document.title = "gone"</script>' }).waitFor(SLOW);
  expect(await page.title()).not.toBe('gone');
  const [tune] = (await readKept(page)).tunes;
  expect(tune?.parts.map(({ measures }) => measures.length)).toEqual([8, 8]);
});

test('pasted notation can be corrected first; what cannot be read is said and adds nothing', async () => {
  const { page } = await openApp({ path: '/add/' });
  await page.getByText('Paste notation').click();
  const pasted = page.getByLabel('Notation as text');
  await pasted.fill('Dear Ada, the tune is lovely.');
  await button(page, 'Look at it').click();
  await page.getByText('No notation was found in this.').waitFor(SLOW);
  await pasted.fill(readFileSync('tests/fixtures/tab/half-readable/input.txt', 'utf8'));
  await button(page, 'Look at it').click();
  await button(page, 'Correct it first').waitFor(SLOW);
  expect(await page.locator('.preview div.plate').innerText()).toMatch(/line \d+, column \d+/i);
  await button(page, 'Correct it first').click();
  await page.getByLabel('Title').fill('Half a tune');
  await button(page, /^Back to the preview/).click();
  await button(page, 'Correct it first').waitFor(SLOW);
  expect(await page.getByLabel('Title').inputValue()).toBe('Half a tune');
  expect((await readKept(page)).tunes).toEqual([]);
});
