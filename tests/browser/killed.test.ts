import path from 'node:path';
import type { Page } from 'playwright';
import { build, type Rollup } from 'vite';
import { expect, inject, test, vi } from 'vitest';
import { seeded } from '../bench/random';
import { makeProfile } from './harness';
import type { Holdings, Kept } from './kill/book-writer';
import { startKillable, type Killable } from './kill/killable';
import { passageKey } from '../../src/lib/core/tune/passage';
import { addTune, isUsable, readKept, SLOW, wordIs, type KeptBook } from './learner';

/** Kills of the whole browser (issue 6): in the app's own drill, and in a page that writes to the book without a break. */
const DRILL_KILLS = 12;
const WRITER_KILLS = 38;
const SEED = Number(process.env['PHRASEWRIGHT_SEED'] ?? Date.now() % 1_000_000);
/** Fifty starts of a browser: far more than they take, for a busy machine. */
const TIMEOUT_MS = 600_000;

console.log(`Kills at random moments: PHRASEWRIGHT_SEED=${SEED} repeats their times.`);

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/**
 * A browser killed at a moment of its own while `work` goes on; what `work` could not finish is no fault. Every other
 * time the moment is counted from the first acknowledgement (`count`), so that there is something to lose on any machine.
 */
async function killAfter(
  browser: Killable,
  { ms, work, waits, count }: { ms: number; work: Promise<unknown>; waits: boolean; count: () => number },
): Promise<void> {
  const before = count();
  const working = work.catch((error: unknown) => error);
  // `expect.poll` asks which test it is in, which is not to be told where tests run together
  if (waits) await vi.waitUntil(() => count() > before, SLOW);
  await wait(ms);
  await browser.kill();
  await working;
}

test.concurrent(
  `${DRILL_KILLS} kills in the middle of a drill lose no pass that the screen had let go on`,
  async ({ onTestFinished }) => {
    const random = seeded(SEED);
    const url = inject('appUrl');
    const profile = makeProfile(onTestFinished);
    const acknowledged = new Set<string>();
    let paths: string[] = [];
    for (let kill = 0; kill < DRILL_KILLS; kill += 1) {
      const browser = await startKillable(profile);
      try {
        const { page } = browser;
        await page.exposeFunction('acknowledge', (ids: string[]) =>
          ids.forEach((id) => acknowledged.add(id)),
        );
        await page.addInitScript(tellWhatIsKept);
        if (kill === 0) paths = await makeTune(page, url);
        else await expectAll(page, url, acknowledged);
        await page.goto(url + (paths[kill % paths.length] ?? ''));
        await isUsable(page);
        await beginDrill(page);
        await killAfter(browser, {
          ms: random() * 3000,
          work: drillOn(page, random),
          waits: kill % 2 === 1,
          count: () => acknowledged.size,
        });
      } finally {
        await browser.kill();
      }
    }
    const last = await startKillable(profile);
    try {
      await expectAll(last.page, url, acknowledged);
    } finally {
      await last.kill();
    }
    console.log(`drill: ${acknowledged.size} entries kept`);
    expect(acknowledged.size).toBeGreaterThanOrEqual(DRILL_KILLS / 2);
  },
  TIMEOUT_MS,
);

/** Tells the test the ids written as soon as the drill screen has no mark waiting. */
function tellWhatIsKept(): void {
  const asked: string[] = [];
  const add = Object.getOwnPropertyDescriptor(IDBObjectStore.prototype, 'add')?.value as (
    this: IDBObjectStore,
    value: unknown,
  ) => IDBRequest<IDBValidKey>;
  IDBObjectStore.prototype.add = function (value: { id: string }) {
    if (this.name === 'passes') asked.push(value.id);
    return add.call(this, value);
  };
  new MutationObserver(() => {
    const waiting = document.querySelector<HTMLElement>('main.drill')?.dataset['waiting'];
    if (waiting !== '0' || asked.length === 0) return;
    const { acknowledge } = globalThis as unknown as { acknowledge: (ids: string[]) => Promise<void> };
    void acknowledge(asked.splice(0));
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ['data-waiting'] });
}

/** Adds a tune and gives the paths of the fastest drills of its measures. */
async function makeTune(page: Page, url: string): Promise<string[]> {
  await page.goto(`${url}/add/`);
  await addTune(page, { title: 'Cut Short', goal: 300 });
  const { tunes } = await readKept(page);
  const [tune] = tunes;
  return (tune?.figures ?? []).map(({ id }) => {
    const passage = passageKey({ kind: 'figure', tuneId: tune?.id ?? '', figureId: id });
    return `/drill/?${new URLSearchParams({ passage, from: '300', toward: '300', minutes: '60' })}`;
  });
}

async function beginDrill(page: Page): Promise<void> {
  await page.locator('.touch').click(SLOW);
  await wordIs(page, /count-in|pass/);
}

/** A hasty learner: touches at any moment, which breaks a pass down, marks it, or marks it otherwise. */
async function drillOn(page: Page, random: () => number): Promise<void> {
  for (;;) {
    await wait(50 + random() * 500);
    await page.locator('.touch').click(SLOW);
  }
}

/** Opens the book, and finds in it whatever was acknowledged. */
async function expectAll(page: Page, url: string, acknowledged: ReadonlySet<string>): Promise<void> {
  await page.goto(`${url}/tunes/`);
  await page.getByText('Cut Short').first().waitFor(SLOW);
  const found = new Set(entryIds(await readKept(page)));
  expect([...acknowledged].filter((id) => !found.has(id))).toEqual([]);
}

function entryIds({ passes, sittings }: KeptBook): string[] {
  return [...passes.map(({ id }) => id), ...sittings.flatMap(({ log }) => log.map(({ id }) => id))];
}

test.concurrent(
  `${WRITER_KILLS} kills between any two writes lose nothing that was written`,
  { timeout: TIMEOUT_MS },
  async ({ onTestFinished }) => {
    const random = seeded(SEED + 1);
    const script = await bundleWriter();
    const url = inject('appUrl');
    const profile = makeProfile(onTestFinished);
    const kept = { passes: new Set<string>(), tune: -1, setting: -1 };
    let restored = 0;
    for (let kill = 0; kill <= WRITER_KILLS; kill += 1) {
      const browser = await startKillable(profile);
      try {
        const { page } = browser;
        await page.exposeFunction('acknowledge', (one: Kept) => {
          if ('pass' in one) kept.passes.add(one.pass);
          else if ('tune' in one) kept.tune = one.tune;
          else kept.setting = one.setting;
        });
        await page.route(`${url}/book-writer.html`, (route) =>
          route.fulfill({ contentType: 'text/html', body: `<script type="module">${script}</script>` }),
        );
        await page.goto(`${url}/book-writer.html`);
        const held = await page.evaluate(
          (from) =>
            (globalThis as unknown as { readThenWrite: (from: number) => Promise<Holdings> }).readThenWrite(
              from,
            ),
          1000 + kill * 1000,
        );
        const found = new Set(held.passes);
        expect([...kept.passes].filter((id) => !found.has(id))).toEqual([]);
        expect(held.passes).toHaveLength(found.size);
        expect(held.tune).toBeGreaterThanOrEqual(kept.tune);
        expect(held.setting).toBeGreaterThanOrEqual(kept.setting);
        expect(held.damaged).toBe(0);
        if (held.isRestored) restored += 1;
        await killAfter(browser, {
          ms: random() * 600,
          work: Promise.resolve(),
          waits: kill % 2 === 1,
          count: () => kept.passes.size,
        });
      } finally {
        await browser.kill();
      }
    }
    console.log(`writer: ${kept.passes.size} passes kept, ${restored} starts restored from the second copy`);
    expect(kept.passes.size).toBeGreaterThanOrEqual(WRITER_KILLS / 2);
  },
);

/** The store with a page of our own, as one script. */
async function bundleWriter(): Promise<string> {
  const { output } = (await build({
    configFile: false,
    logLevel: 'error',
    resolve: { alias: { $lib: path.resolve('src/lib') } },
    build: {
      write: false,
      target: 'esnext',
      rollupOptions: {
        input: path.resolve('tests/browser/kill/book-writer.ts'),
        output: { inlineDynamicImports: true },
      },
    },
  })) as Rollup.RollupOutput;
  return output[0].code.replaceAll('</script', '<\\/script');
}
