import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { bytesOfNumber, chunk } from '../../src/lib/core/notation/midi/midi-bytes';
import { violations } from './axe';
import { openApp, serveOwn } from './harness';
import { button, installOffline, isUsable, readKept, SLOW, soon } from './learner';

const MARKUP = '<img src="x" onerror="document.title = 1">';
const LONG =
  'The Long Road Home From the Grist Mill by the Old Stone Bridge, as It Was Played by Lantern Light';

/** A tunebook of 120 made tunes, the second with a long title, the third with markup for one and a sign that is no music. */
const TUNEBOOK = Array.from({ length: 120 }, (_, index) => {
  const title = [undefined, LONG, MARKUP][index] ?? `Made Tune ${String(index + 1)}`;
  return `X:${String(index + 1)}\nT:${title}\nM:4/4\nL:1/4\nK:G\nGABc|dBG2${index === 2 ? '?' : ''}|]\n`;
}).join('\n');

const sounded = (step: string, duration: number, voice: number) =>
  `<note><pitch><step>${step}</step><octave>4</octave></pitch><duration>${String(duration)}</duration><voice>${String(voice)}</voice></note>`;

/** One measure: E over C, in two voices of one part. */
const TWO_VOICES = `<score-partwise version="4.0"><movement-title>Two Voices</movement-title>
<part-list><score-part id="P1"><part-name>Fiddle</part-name></score-part></part-list><part id="P1"><measure number="1">
<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
${sounded('E', 4, 1)}<backup><duration>4</duration></backup>${sounded('C', 4, 2)}</measure></part></score-partwise>`;

/** One note of a quarter in each of two named tracks: G4 (67) and D4 (62). */
function twoTracks(): Buffer {
  const track = (name: string, pitch: number) =>
    chunk('MTrk', [
      ...[0, 0xff, 0x03, name.length, ...Buffer.from(name)],
      ...[0, 0x90, pitch, 80, 96, 0x80, pitch, 0, 0, 0xff, 0x2f, 0],
    ]);
  const head = chunk('MThd', [...bytesOfNumber(1, 2), ...bytesOfNumber(2, 2), 0, 96]);
  return Buffer.from([...head, ...track('Guitar', 67), ...track('Banjo', 62)]);
}

const choose = (page: Page, name: string, buffer: Buffer) =>
  page.getByLabel('Notation file').setInputFiles({ name, mimeType: 'application/octet-stream', buffer });

const drawn = (page: Page, note: string) =>
  page.getByRole('img', { name: `beat one: ${note}` }).waitFor(SLOW);

async function expectNoViolations(page: Page): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await violations(page), colorScheme).toEqual([]);
  }
}

test('without a network, several tunes of a tunebook are found, looked at and added together', async () => {
  const server = await serveOwn();
  const app = await openApp({ url: server.url, offlineCopy: true });
  const { page } = app;
  await installOffline(page);
  await server.close();
  await app.offline();
  await page.goto(`${server.url}/add/`);
  await isUsable(page);

  await choose(page, 'tunes.abc', Buffer.from(TUNEBOOK));
  await page.getByText('The first 100 of 120.').waitFor(SLOW);
  await page.getByRole('checkbox', { name: LONG }).check();
  await page.getByRole('checkbox', { name: MARKUP }).check();
  await expectNoViolations(page);
  await page.getByRole('searchbox').fill('made tune 117');
  await page.getByText('1 tune.', { exact: true }).waitFor(SLOW);
  await page.getByRole('checkbox', { name: 'Made Tune 117' }).check();
  await button(page, 'Look at 3 tunes').click();

  await button(page, 'Add 3 tunes').waitFor(SLOW);
  await page.getByText(/^Line \d+, column 10: "\?" is not music/).waitFor(SLOW);
  for (const closed of await page.getByText('The measures').all()) await closed.click();
  await soon(() => page.getByRole('img', { name: 'beat one: G 4' }).count()).toBe(3);
  await expectNoViolations(page);
  expect((await readKept(page)).tunes).toEqual([]);

  await button(page, 'Add 3 tunes').click();
  await page.getByText('These 3 tunes are in your book now.').waitFor(SLOW);
  await page.getByRole('link', { name: MARKUP }).waitFor(SLOW);
  expect(await page.locator('main img').count()).toBe(0);
  const titles = (await readKept(page)).tunes.map(({ title }) => title);
  expect(titles.sort()).toEqual([LONG, MARKUP, 'Made Tune 117'].sort());
});

test('a file that is dropped is read, and the melody is the voice that is chosen', async () => {
  const { page } = await openApp({ path: '/add/' });
  await isUsable(page);
  const dataTransfer = await page.evaluateHandle((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'two-voices.musicxml'));
    return data;
  }, TWO_VOICES);
  await page.getByRole('region', { name: 'From notation' }).dispatchEvent('drop', { dataTransfer });

  await drawn(page, 'E 4');
  expect(await page.getByLabel('Title').inputValue()).toBe('Two Voices');
  const voices = page.getByRole('combobox', { name: 'Melody' });
  expect(await voices.locator('option').allInnerTexts()).toEqual(['Fiddle, voice 1', 'Fiddle, voice 2']);
  await voices.selectOption('Fiddle, voice 2');
  await drawn(page, 'C 4');
});

test('the melody of a MIDI file is the track that is chosen, and its board shows it', async () => {
  const { page } = await openApp({ path: '/add/' });
  await isUsable(page);
  await choose(page, 'two tracks.mid', twoTracks());
  await drawn(page, 'G 4');
  // a file that gives itself no title is called by its name
  expect(await page.getByLabel('Title').inputValue()).toBe('two tracks');
  await page.getByRole('combobox', { name: 'Melody' }).selectOption('Banjo');
  await drawn(page, 'D 4');
  await button(page, 'Add to my book').click();
  await page.waitForURL(/\/tune\/\?id=/, SLOW);
  await page.getByRole('heading', { name: 'two tracks' }).waitFor(SLOW);
  expect((await readKept(page)).tunes).toMatchObject([
    { title: 'two tracks', figures: [{ strikes: null, melody: [{ pitch: 62 }] }] },
  ]);
});
