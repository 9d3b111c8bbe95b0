import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright';
import { builtApp, loadSlowly, withBuild } from '../built-app';
import { withClickPage } from '../click-page';
import type { Figure } from '../figure';
import type { PluckCue } from '../../../src/lib/core/rhythm/pluck-cue';
import type { Segment } from '../../../src/lib/core/rhythm/segment';
import { tempoSteps } from '../../../src/lib/core/rhythm/tempo-map';

/** As in `built-app.ts`: a phone of the middle range against these machines (DESIGN section 7). */
const SLOWDOWN = 4;
const RENDERED_SEC = 60;
const FOLLOWED_SEC = 10;
const RUNS = 5;
const STARTS = 5;

const MEASURES = 8;

/** A running line of sixteenths over all five strings. */
const plucks: readonly PluckCue[] = Array.from({ length: MEASURES * 8 }, (_, index) => ({
  at: [index, 4],
  string: ([3, 1, 2, 5] as const)[index % 4]!,
  pitch: [55, 62, 59, 67][index % 4]!,
}));

/** A climb from 100 to 140, each tempo for eight measures. */
const climb = (change: Partial<Segment>): Segment[] =>
  tempoSteps(100, 140, 3).map((tempo, index) => ({
    ...{ id: `${index}`, kind: 'pass', meter: '2/4', tempo, pattern: 'down-stroke' },
    measures: Array.from({ length: MEASURES }, () => 2),
    ...change,
  }));

const percentOfCore = (ms: number, seconds: number) => Math.round((10 * ms) / seconds) / 100;

/** The quickest of several: other work on the machine only ever adds. */
async function leastRenderMs(page: Page, segments: readonly Segment[]): Promise<number> {
  const times: number[] = [];
  for (let run = 0; run < RUNS; run++) {
    times.push(
      await page.evaluate(([given, seconds]) => window.clickBench.renderMs(given, seconds), [
        segments,
        RENDERED_SEC,
      ] as const),
    );
  }
  console.error('render', times.map(Math.round).join(' '));
  return Math.min(...times);
}

/** What the page's own thread takes while it follows the click, or nothing, frame by frame; from Chromium's account. */
async function followPercent(page: Page, withClick: boolean): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWDOWN });
  const taskSec = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')?.value ?? NaN;
  };
  const before = await taskSec();
  await page.evaluate(([seconds, isClick]) => window.clickBench.follow(seconds, isClick), [
    FOLLOWED_SEC,
    withClick,
  ] as const);
  return percentOfCore(((await taskSec()) - before) * 1000, FOLLOWED_SEC);
}

async function startMs(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWDOWN });
  const times: number[] = [];
  for (let run = 0; run < STARTS; run++) {
    times.push(await page.evaluate(() => window.clickBench.startToFirstClick()));
  }
  console.error('start', times.map(Math.round).join(' '));
  return times.sort((a, b) => a - b)[Math.floor(STARTS / 2)] ?? NaN;
}

/** gzip bytes of what Today loads that knows of audio: the engine belongs to the drill. */
async function firstLoadBytes(): Promise<number> {
  const folder = builtApp();
  const { scripts } = await withBuild(folder, (context, url) => loadSlowly(context, folder, `${url}/`));
  const withAudio = [...scripts].filter(([script]) =>
    /AudioContext|registerProcessor/.test(readFileSync(path.join(folder, script), 'utf8')),
  );
  return withAudio.reduce((sum, [, bytes]) => sum + bytes, 0);
}

/** What the click costs: on the audio thread, on the page, at the start, and before Today is usable. */
export async function* measure(): AsyncIterable<Figure> {
  const unit = '% of one core at 4x CPU';
  const found = await withClickPage(async (page) => {
    const click = await leastRenderMs(page, climb({}));
    const both = await leastRenderMs(page, climb({ plucks }));
    const start = await startMs(page);
    const bare = await followPercent(page, false);
    return { click, both, start, bare, follow: await followPercent(page, true) };
  });
  const rendered = (ms: number) => percentOfCore(SLOWDOWN * ms, RENDERED_SEC);
  yield { figure: 'click-cost-render', value: rendered(found.click), unit, better: 'lower' };
  yield { figure: 'click-cost-render-with-string', value: rendered(found.both), unit, better: 'lower' };
  yield {
    ...{ figure: 'click-cost-page', value: found.follow, unit, better: 'lower' },
    reference: { name: 'the same page without a click', value: found.bare },
  };
  yield {
    figure: 'click-start',
    value: Math.round(found.start),
    unit: 'ms from asking to the first click heard, at 4x CPU',
    better: 'lower',
  };
  yield {
    figure: 'click-first-load',
    value: await firstLoadBytes(),
    unit: 'bytes gzip',
    better: 'lower',
    target: 0,
  };
}
