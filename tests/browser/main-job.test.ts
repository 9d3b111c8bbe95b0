import { expect, test } from 'vitest';
import { makeProfile, openApp, serveOwn } from './harness';
import {
  addTune,
  begin,
  breakDown,
  breaths,
  button,
  drillSeen,
  installOffline,
  isUsable,
  markNext,
  outcomes,
  readKept,
  readPlan,
  SLOW,
  soon,
  watchDrill,
  wordIs,
} from './learner';

const EVENING = Date.UTC(2026, 10, 25, 18, 0);
const NEXT_EVENING = EVENING + 24 * 3_600_000;
/** A high goal makes short passes. */
const GOAL = 300;

test('from an empty book: add, drill ten passes, close the browser, come back next day, see plan and chart', async () => {
  const userDataDir = makeProfile();
  const first = await openApp({
    userDataDir,
    clockMs: EVENING,
    hasTouch: true,
  });
  const { page } = first;
  await watchDrill(page);

  await page.getByRole('link', { name: 'Add a tune' }).click();
  await addTune(page, {
    title: 'Kettle Lane',
    tuning: 'gCGCD',
    goal: GOAL,
    shared: [['A5', 'A1']],
  });
  const [tune] = (await readKept(page)).tunes;
  expect(tune).toMatchObject({
    title: 'Kettle Lane',
    tuning: [67, 48, 55, 60, 62], // gCGCD as MIDI notes, middle C = 60 (common practice)
    goalTempo: GOAL,
    form: 'AABB',
    origin: 'own',
  });
  expect(tune?.parts.map(({ measures }) => measures.length)).toEqual([8, 8]);
  expect(tune?.figures).toHaveLength(15);
  expect(tune?.parts[0]?.measures[4]?.figureId).toBe(tune?.parts[0]?.measures[0]?.figureId);

  await begin(page);
  await markNext(page, 1);
  await markNext(page, 2);
  await markNext(page, 1);
  await breakDown(page);
  const counted = async () => outcomes((await readKept(page)).passes.map(({ entry }) => entry)).length;
  while ((await counted()) < 10) await markNext(page, 1);

  const seen = breaths(await drillSeen(page));
  for (const { onDisk, shown } of seen) expect(onDisk).toEqual(shown);
  const marks = seen.map(({ mark }) => mark).filter((mark) => mark !== 'unmarked');
  expect(marks).toEqual(outcomes((await readKept(page)).passes.map(({ entry }) => entry)));
  expect(marks).toContain('broke down');
  expect(marks).toContain('stumbled');

  await button(page, 'End').click();
  await page.getByLabel(/A line of notes/).fill('Thumb lags in A1.');
  await page.getByText(/came out clean/).waitFor(SLOW);
  await button(page, 'End the sitting').click();
  await page.waitForURL(`${first.url}/`, SLOW);
  await button(page, /^Begin/).waitFor(SLOW);
  await soon(async () => (await readKept(page)).sittings.length).toBe(1);
  const kept = await readKept(page);
  expect(kept.sittings[0]).toMatchObject({
    note: 'Thumb lags in A1.',
    origin: 'own',
  });
  expect(outcomes(kept.sittings[0]?.log ?? [])).toEqual(marks);
  expect([kept.sitting, kept.drills, kept.passes]).toEqual([[], [], []]);
  const yesterday = await readPlan(page);
  await first.close();

  const second = await openApp({
    userDataDir,
    clockMs: NEXT_EVENING,
    hasTouch: true,
  });
  await isUsable(second.page);
  expect(await readKept(second.page)).toEqual(kept);
  await soon(() => readPlan(second.page)).not.toEqual(yesterday);
  const today = await readPlan(second.page);
  expect(today.length).toBeGreaterThan(0);
  for (const { name, reason } of today) expect(reason, name).toMatch(/\w+ .*\./);

  await second.page.getByRole('link', { name: 'Progress' }).click();
  await second.page.locator('.chart canvas').waitFor(SLOW);
  const settled = await second.page.locator('.lead .figure').innerText();
  await second.page.getByText('As a table: settled tempo by practice day').click();
  const row = second.page.getByRole('row', { name: /25 November/ }).first();
  expect(await row.getByRole('cell').first().innerText()).toMatch(/^\d+$/);
  expect(settled).toMatch(/^\d+$/);
  expect(await drawnPixels(second.page)).toBeGreaterThan(100);
}, 240_000);

/** Pixels of the chart that are not blank. */
function drawnPixels(page: Parameters<typeof isUsable>[0]): Promise<number> {
  return page.locator('.chart canvas').evaluate((canvas: HTMLCanvasElement) => {
    const context = canvas.getContext('2d');
    const data = context?.getImageData(0, 0, canvas.width, canvas.height).data ?? [];
    return [...data].filter((value, index) => index % 4 === 3 && value > 0).length;
  });
}

test('the same offline: add, drill, reload, plan, with the server gone', async () => {
  const server = await serveOwn();
  const app = await openApp({ url: server.url, offlineCopy: true, hasTouch: true });
  const { page } = app;
  await installOffline(page);
  await server.close();
  await app.offline();

  await page.getByRole('link', { name: 'Add a tune' }).click();
  await addTune(page, { title: 'Far Barn', goal: GOAL });
  await begin(page);
  const counted = async () => outcomes((await readKept(page)).passes.map(({ entry }) => entry)).length;
  while ((await counted()) < 3) await markNext(page, 1);
  const before = await readKept(page);

  await page.reload();
  await wordIs(page, /ready|look/);
  expect(await readKept(page)).toEqual(before);
  await page.getByText(`${await counted()} passes`).waitFor(SLOW);
  await button(page, 'End').click();
  await page.getByText(/came out clean/).waitFor(SLOW);
  await button(page, 'End the sitting').click();
  await button(page, /^Begin/).waitFor(SLOW);
  expect((await readPlan(page)).length).toBeGreaterThan(0);
  await page.getByRole('link', { name: 'Progress' }).click();
  await page.locator('.chart canvas').waitFor(SLOW);
});
