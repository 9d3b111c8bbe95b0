import type { BrowserContext } from 'playwright';
import { type Figure, median } from '../figure';
import { builtApp, builtBarePage, type Load, loadSlowly, withBuild } from '../built-app';

const RUNS = 3;
const BARE = 'bare SvelteKit page';

const totalBytes = ({ scripts }: Load) => [...scripts.values()].reduce((sum, bytes) => sum + bytes, 0);

/** Several first visits, each in a browser that has seen nothing yet. */
async function firstVisits(folder: string): Promise<Load[]> {
  const loads: Load[] = [];
  for (let run = 0; run < RUNS; run++) {
    loads.push(await withBuild(folder, (context, url) => loadSlowly(context, folder, `${url}/`)));
  }
  return loads;
}

/** Where the bytes are, for whoever wants fewer; to standard error, for standard output holds figures only. */
function explain(load: Load | undefined) {
  const largest = [...(load?.scripts ?? [])].sort(([, a], [, b]) => b - a).slice(0, 8);
  for (const [script, bytes] of largest) console.error(`${String(bytes).padStart(8)} ${script}`);
}

async function installOffline(context: BrowserContext, url: string) {
  const page = await context.newPage();
  await page.goto(url);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.close();
}

/** Visits after the first: the app's are answered by its service worker, the bare page's by the browser's cache. */
async function laterVisits(folder: string, hasWorker: boolean): Promise<Load[]> {
  return withBuild(folder, async (context, url) => {
    if (hasWorker) await installOffline(context, url);
    else await loadSlowly(context, folder, `${url}/`);
    const loads: Load[] = [];
    for (let run = 0; run < RUNS; run++) loads.push(await loadSlowly(context, folder, `${url}/`));
    return loads;
  });
}

/** JavaScript and time until Today is usable. Bytes are those of the files as gzip -9 would send them. */
export async function* measure(): AsyncIterable<Figure> {
  const app = builtApp();
  const bare = builtBarePage();
  const appLoads = await firstVisits(app);
  const bareLoads = await firstVisits(bare);
  explain(appLoads[0]);
  yield {
    figure: 'first-load-js',
    value: Math.max(...appLoads.map(totalBytes)),
    unit: 'bytes gzip',
    better: 'lower',
    target: 75_000,
    reference: { name: BARE, value: Math.max(...bareLoads.map(totalBytes)) },
  };
  const usableMs = (loads: readonly Load[]) => Math.round(median(loads.map((load) => load.usableMs)));
  yield {
    figure: 'first-load-usable',
    value: usableMs(appLoads),
    unit: 'ms at 4x CPU',
    better: 'lower',
    target: 1500,
    reference: { name: BARE, value: usableMs(bareLoads) },
  };
  yield {
    figure: 'later-load-usable',
    value: usableMs(await laterVisits(app, true)),
    unit: 'ms at 4x CPU, from the service worker',
    better: 'lower',
    target: 800,
    reference: { name: `${BARE}, from the cache`, value: usableMs(await laterVisits(bare, false)) },
  };
}
