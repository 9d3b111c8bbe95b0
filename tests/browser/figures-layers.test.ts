import { expect, test } from 'vitest';
import { button, isUsable, readKept, readPlan, SLOW } from './learner';
import { openApp } from './harness';

test('what is the same is joined, split off and undone, and a layer is added and taken off; every pass stays', async () => {
  const { page, url } = await openApp();
  await button(page, 'Try it with the demo tunes').click();
  await readPlan(page);
  const find = async () => {
    const { tunes, sittings } = await readKept(page);
    const tune = tunes.find(({ title }) => title === 'Angeline the Baker');
    if (!tune) throw new Error('The demo has no Angeline the Baker');
    return { tune, passes: JSON.stringify(sittings.map(({ log }) => log)) };
  };
  const begun = await find();
  await page.goto(`${url}/tune/?id=${begun.tune.id}`);
  await isUsable(page);
  await page.getByText('16 measures, 8 to learn', { exact: true }).waitFor(SLOW);

  await button(page, 'The same: learn them as one').first().click();
  await page.getByText('A3, B3 and A7, B7 are learned as one now.').waitFor(SLOW);
  await page.getByText('16 measures, 7 to learn', { exact: true }).waitFor(SLOW);
  await button(page, 'Undo').click();
  await page.getByText('16 measures, 8 to learn', { exact: true }).waitFor(SLOW);

  await page.getByText('A1, A5', { exact: true }).click();
  await button(page, 'A5 is not really the same').click();
  await page.getByText('Those so far stay with A1.').waitFor(SLOW);
  await page.getByText('16 measures, 9 to learn', { exact: true }).waitFor(SLOW);
  await page.getByText('A5 sounds the same as A1, and is learned on its own.').waitFor(SLOW);

  await button(page, 'Add a layer').click();
  await page.getByLabel('The new layer is called').fill('Ada’s way');
  await button(page, 'Add it').click();
  await page.getByText('16 measures, 9 to learn, 0 new in this layer').waitFor(SLOW);
  await button(page, 'The same: learn them as one').first().click();
  await page.getByText('16 measures, 8 to learn, 0 new in this layer').waitFor(SLOW);
  const inlaid = page.getByRole('button', { name: /^Part A, measure 5: .*changed in this layer$/ });
  await inlaid.waitFor(SLOW);
  await page.getByRole('radio', { name: 'plain' }).check();
  await page.getByText('16 measures, 9 to learn', { exact: true }).waitFor(SLOW);
  expect(await inlaid.count()).toBe(0);

  await page.getByRole('radio', { name: 'Ada’s way' }).check();
  await inlaid.waitFor(SLOW);
  await page.reload();
  await inlaid.waitFor(SLOW);
  await page.goto(`${url}/sheet/?id=${begun.tune.id}`);
  await page.getByText('Ada’s way').first().waitFor(SLOW);
  await page.goto(`${url}/tune/?id=${begun.tune.id}`);
  await page.getByRole('radio', { name: 'Ada’s way', checked: true }).waitFor(SLOW);
  await button(page, 'Take it off').click();
  await button(page, 'Take it off').last().click();
  await page.getByText('The layer “Ada’s way” is off.').waitFor(SLOW);
  const ended = await find();
  expect(ended.tune.layers).toHaveLength(1);
  expect(ended.passes).toBe(begun.passes);
}, 60_000);
