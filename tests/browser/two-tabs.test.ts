import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { cell, fret, held, openMeasure, keptDraft } from './editor';
import { openApp } from './harness';
import { addTune, begin, button, isUsable, markNext, readKept, readPlan, SLOW, soon } from './learner';

const settingsOf = async (page: Page) =>
  Object.fromEntries((await readKept(page)).settings.map(({ key, value }) => [key, value]));

test('what one tab chooses the other shows at once: minutes, tuning, hands; and each keeps the other’s settings', async () => {
  const { page: here, context, url } = await openApp();
  await button(here, 'Try it with the demo tunes').click();
  await readPlan(here);
  const there = await context.newPage();
  await there.goto(`${url}/`);
  await readPlan(there);
  await here.getByLabel('I have').selectOption('45');
  await soon(() => there.getByLabel('I have').inputValue()).toBe('45');
  await there.getByLabel('the banjo is in').selectOption('aDADE');
  await soon(() => here.getByLabel('the banjo is in').inputValue()).toBe('aDADE');
  await there.getByLabel('and my hands feel').selectOption('stiff');
  await soon(() => here.getByLabel('and my hands feel').inputValue()).toBe('stiff');
  await here.reload();
  await soon(() => here.getByLabel('and my hands feel').inputValue()).toBe('stiff');

  for (const page of [here, there]) {
    await page.goto(`${url}/settings/`);
    await isUsable(page);
  }
  await Promise.all([
    here.getByRole('radio', { name: 'alternating' }).check(),
    there.getByRole('radio', { name: 'dark', exact: true }).check(),
  ]);
  await soon(() => settingsOf(here)).toMatchObject({ climb: 'alternating', theme: 'dark', minutes: 45 });
  for (const page of [here, there]) {
    await soon(() => page.getByRole('radio', { name: 'alternating' }).isChecked()).toBe(true);
    await soon(() => page.getByRole('radio', { name: 'dark', exact: true }).isChecked()).toBe(true);
  }
});

test('a setting never falls back for a moment, and outlives a reload in the same breath', async () => {
  const { page, context, url } = await openApp({ path: '/settings/' });
  await isUsable(page);
  const other = await context.newPage();
  await other.goto(`${url}/settings/`);
  await isUsable(other);
  // a page out of sight paints no frames
  await page.bringToFront();
  // the other tab writes all the while, so that this one reads the settings again and again
  const writing = other.evaluate(async () => {
    const radios = [...document.querySelectorAll<HTMLInputElement>('input[type=radio]')];
    const themes = radios.filter(({ labels }) =>
      /^(light|dark)$/.test(labels?.[0]?.textContent?.trim() ?? ''),
    );
    for (let turn = 0; turn < 40; turn += 1) {
      themes[turn % themes.length]?.click();
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    return themes.length;
  });
  const wrong = await page.evaluate(async () => {
    const radios = [...document.querySelectorAll<HTMLInputElement>('input[type=radio]')];
    const climbs = radios.filter(({ labels }) =>
      /^(steady|alternating)/.test(labels?.[0]?.textContent?.trim() ?? ''),
    );
    let fellBack = 0;
    for (let turn = 0; turn < 20; turn += 1) {
      const radio = climbs[turn % climbs.length];
      radio?.click();
      for (let frame = 0; frame < 2; frame += 1) {
        await new Promise((resolve) => requestAnimationFrame(resolve));
        if (radio?.checked !== true) fellBack += 1;
      }
    }
    return { fellBack, climbs: climbs.length };
  });
  expect(wrong).toEqual({ fellBack: 0, climbs: 2 });
  expect(await writing).toBe(2);

  const loaded = page.waitForEvent('load');
  await page.evaluate(() => {
    const radios = [...document.querySelectorAll<HTMLInputElement>('input[type=radio]')];
    radios.find(({ labels }) => /^by hand/.test(labels?.[0]?.textContent?.trim() ?? ''))?.click();
    location.reload();
  });
  await loaded;
  await isUsable(page);
  await soon(() => page.getByRole('radio', { name: 'by hand' }).isChecked()).toBe(true);
  await soon(() => settingsOf(page)).toMatchObject({ climb: 'by hand' });
});

test('two tabs edit one tune and drill in one sitting, and neither loses anything', async () => {
  const { page: here, context, url } = await openApp({ path: '/add/', hasTouch: true });
  await addTune(here, { title: 'Both Hands', goal: 300 });
  const drillPath = here.url();
  const tuneId = (await readKept(here)).tunes[0]?.id ?? '';
  const there = await context.newPage();
  await there.goto(`${url}/edit/?id=${tuneId}`);
  await isUsable(there);
  await there.getByLabel('Title').fill('Both Hands Now');
  await here.goto(`${url}/tune/?id=${tuneId}`);
  await button(here, 'Add a layer').click();
  await here.getByLabel('The new layer is called').fill('Ada’s way');
  await button(here, 'Add it').click();
  await soon(async () => (await readKept(here)).tunes[0]?.layers.length).toBe(2);
  await button(there, /^Keep the changes/).click();
  await there.waitForURL(/\/tune\//, SLOW);
  await here.getByText('Both Hands Now').first().waitFor(SLOW);
  expect((await readKept(here)).tunes).toMatchObject([{ title: 'Both Hands Now', layers: [{}, {}] }]);

  await there.goto(`${url}/`);
  await readPlan(there);
  await here.goto(drillPath);
  await begin(here);
  while ((await readKept(here)).passes.length < 1) await markNext(here, 1);
  await button(there, /^Go on/).waitFor(SLOW);
  await button(here, 'End').click();
  await here.getByText(/came out clean/).waitFor(SLOW);
  await there.goto(drillPath);
  await there.locator('main.drill').waitFor(SLOW);
  await begin(there);
  const before = (await readKept(there)).passes.length;
  while ((await readKept(there)).passes.length === before) await markNext(there, 1);
  await here.getByLabel(/A line of notes/).fill('two tabs');
  await here.getByLabel(/A line of notes/).blur();
  await soon(async () => JSON.stringify((await readKept(here)).sitting)).toContain('two tabs');
  const { sitting, sittings, passes } = await readKept(here);
  expect([sitting.length, sittings.length]).toEqual([1, 0]);
  expect(passes.length).toBeGreaterThan(before);
});

const write = async (page: Page, number: number) => {
  await page.bringToFront();
  await cell(page, /^beat one, first string/).click();
  await fret(page, number).click();
  await cell(page, new RegExp(`^beat one, first string: strike fret ${number}`)).waitFor(SLOW);
};

test('two tabs write one measure: the other’s save is followed, and what was not saved is set aside, not lost', async () => {
  const { page: here, context } = await openApp({ path: '/add/' });
  await addTune(here, { title: 'Two Pens' });
  const there = await context.newPage();
  await there.goto(here.url());
  for (const page of [here, there]) await openMeasure(page, 0);

  const first = async () => (await held(here))[0]?.[0];
  await write(here, 2);
  await button(here, 'Save').click();
  await soon(first).toBe('0/1 1:2 strike');
  // nothing was written there: it shows what the book holds now
  await cell(there, /^beat one, first string: strike fret 2/).waitFor(SLOW);

  await write(there, 7);
  await write(here, 5);
  await button(here, 'Save').click();
  await soon(first).toBe('0/1 1:5 strike');
  await cell(there, /^beat one, first string: strike fret 5/).waitFor(SLOW);
  await there.getByText('What you wrote is set aside.').waitFor(SLOW);
  await there.bringToFront();
  await button(there, 'Write it here').click();
  await cell(there, /^beat one, first string: strike fret 7/).waitFor(SLOW);
  expect(await first()).toBe('0/1 1:5 strike');
  await button(there, 'Save').click();
  await soon(first).toBe('0/1 1:7 strike');
  await cell(here, /^beat one, first string: strike fret 7/).waitFor(SLOW);
});

test('two windows left with unsaved writing on one measure: both are there, and each may be kept', async () => {
  const { page: here, context, url } = await openApp({ path: '/add/' });
  await addTune(here, { title: 'Two Quills' });
  const there = await context.newPage();
  await there.goto(`${url}/`);
  for (const page of [here, there]) await openMeasure(page, 0);
  const measure = here.url();
  await write(here, 3);
  await write(there, 9);
  // what a living window has in hand is not taken from it
  const third = await context.newPage();
  await third.goto(measure);
  await cell(third, /^beat one, first string: nothing/).waitFor(SLOW);
  for (const page of [here, there, third]) await page.close();

  const again = await context.newPage();
  await again.goto(measure);
  await again.getByText('Taken up where you left it.').waitFor(SLOW);
  await cell(again, /^beat one, first string: strike fret 9/).waitFor(SLOW);
  await button(again, 'Write it here').click();
  await cell(again, /^beat one, first string: strike fret 3/).waitFor(SLOW);
  // the one that it takes the place of is set aside in its turn, also where the page is closed before anything is saved
  await again.close();
  const last = await context.newPage();
  await last.goto(measure);
  await cell(last, /^beat one, first string: strike fret 3/).waitFor(SLOW);
  await button(last, 'Save').click();
  await soon(async () => (await held(last))[0]?.[0]).toBe('0/1 1:3 strike');
  await button(last, 'Write it here').click();
  await cell(last, /^beat one, first string: strike fret 9/).waitFor(SLOW);
  await button(last, 'Save').click();
  await soon(async () => (await held(last))[0]?.[0]).toBe('0/1 1:9 strike');
  await soon(() => keptDraft(last)).toBeUndefined();
  await last.reload();
  await cell(last, /^beat one, first string: strike fret 9/).waitFor(SLOW);
  expect(await last.getByText('What you wrote is set aside.').count()).toBe(0);
});

test('what another tab changes while this one takes in a change of its own is not missed', async () => {
  const { page: here, context, url } = await openApp({ path: '/add/' });
  await addTune(here, { title: 'Slow Ears' });
  const id = (await readKept(here)).tunes[0]?.id ?? '';
  const there = await context.newPage();
  await there.goto(`${url}/edit/?id=${id}`);
  await there.getByLabel('Title').fill('Quick Ears');
  await here.goto(`${url}/tune/?id=${id}`);
  await isUsable(here);
  // the practice worker hears of everything late, as from a long log
  await here.evaluate(() => {
    const post = Object.getOwnPropertyDescriptor(Worker.prototype, 'postMessage')?.value as (
      this: Worker,
      message: unknown,
    ) => void;
    Worker.prototype.postMessage = function (message: unknown) {
      setTimeout(() => post.call(this, message), 5000);
    };
  });
  await button(here, 'Add a layer').click();
  await here.getByLabel('The new layer is called').fill('late');
  await button(here, 'Add it').click();
  await soon(async () => (await readKept(here)).tunes[0]?.layers.length).toBe(2);
  await button(there, /^Keep the changes/).click();
  await there.waitForURL(/\/tune\//, SLOW);
  await here.getByText('Quick Ears').first().waitFor(SLOW);
});
