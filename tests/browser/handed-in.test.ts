import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { openApp } from './harness';
import { button, installOffline, readPlan, SLOW, soon } from './learner';

interface Shared {
  text?: string;
  file?: { name: string; type: string; text: string };
}

/**
 * What the system's share sheet does with the manifest's share target (W3C Web Share Target): navigates to its address by
 * a form that is posted from outside of the app.
 */
async function share(page: Page, url: string, { text, file }: Shared): Promise<void> {
  const { share_target: target } = JSON.parse(readFileSync('static/manifest.webmanifest', 'utf8')) as {
    share_target: { action: string; method: string; enctype: string };
  };
  await page.goto('about:blank');
  await page.setContent(
    `<form action="${url}${target.action}" method="${target.method}" enctype="${target.enctype}">
      <input type="file" name="file" /><textarea name="text"></textarea><button>Share</button>
    </form>`,
  );
  if (text !== undefined) await page.locator('textarea').fill(text);
  const { name = '', type: mimeType = '' } = file ?? {};
  if (file) {
    await page.locator('input').setInputFiles({ name, mimeType, buffer: Buffer.from(file.text) });
  }
  await button(page, 'Share').click();
  await page.waitForURL(`${url}/**`, SLOW);
}

const abc = {
  name: 'tin-lantern.abc',
  type: 'text/plain',
  text: 'X:1\nT:Tin Lantern\nM:2/4\nL:1/8\nK:G\nGA Bc|d2 d2|GA Bc|d4|]\n',
};

/** The preview of that tune, not in the book yet. */
async function isLookedAt(page: Page): Promise<void> {
  await button(page, /^Add to my book/).waitFor(SLOW);
  await soon(() => page.getByLabel('Title').inputValue()).toBe('Tin Lantern');
}

test('a file, a text, a link and a backup that are shared come to the screen for them, offline too', async () => {
  const app = await openApp({ offlineCopy: true });
  const { page, url } = app;
  await installOffline(page);
  await app.offline();
  await share(page, url, { file: abc });
  await isLookedAt(page);

  await share(page, url, { text: abc.text });
  await isLookedAt(page);
  // what was shared is read once
  await page.reload();
  await page.getByText('What was shared did not arrive here.').waitFor(SLOW);

  await share(page, url, { text: 'Try this: https://elsewhere.example/take/#cut-short' });
  await page.getByText(/This link cannot be read/).waitFor(SLOW);

  const demo = readFileSync('sample-data/demo-book.json', 'utf8');
  await share(page, url, { file: { name: 'demo.json', type: 'application/json', text: demo } });
  await button(page, 'Merge them in').click();
  await page.getByText(/^New in this book: 6 tunes/).waitFor(SLOW);
});

test('a file that the system opens with the app is read; the shortcut begins the first drill of the plan', async () => {
  const { page, context, url } = await openApp({ offlineCopy: true });
  // the system's side of the Launch Handler API, which a browser without its window does not have
  await context.addInitScript(`
    const setConsumer = (take) => {
      const file = new File([${JSON.stringify(abc.text)}], '${abc.name}');
      take({ files: [{ getFile: () => Promise.resolve(file) }] });
    };
    Object.defineProperty(window, 'launchQueue', { value: { setConsumer } });
  `);
  await page.goto(`${url}/add/`);
  await isLookedAt(page);

  await page.goto(url);
  await button(page, 'Try it with the demo tunes').click();
  const [first] = await readPlan(page);
  const { shortcuts } = (await (await fetch(`${url}/manifest.webmanifest`)).json()) as {
    shortcuts: { url: string }[];
  };
  for (const shortcut of shortcuts) expect((await fetch(url + shortcut.url)).status).toBe(200);
  await page.goto(url + (shortcuts[0]?.url ?? ''));
  await page.waitForURL(/\/drill\/\?/, SLOW);
  await soon(() => page.locator('.drill h1').textContent()).toContain(first?.name);
});
