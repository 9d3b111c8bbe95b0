import type { Page } from 'playwright';
import { expect } from 'vitest';

/** What a learner does with the screens, and what is then found on the device. Long waits: the machine may be busy. */
export const SLOW = { timeout: 30_000 };
export const soon = <T>(read: () => Promise<T> | T) => expect.poll(read, SLOW);

export const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

/** Chooses a text as a backup to be read. */
export async function chooseBackup(page: Page, name: string, text: string): Promise<void> {
  const input = page.locator('input[type=file]');
  // a backup that goes out is noted after its download has begun, and until then none is read
  await soon(() => input.isEnabled()).toBe(true);
  await input.setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text, 'utf8') });
}

export const isUsable = (page: Page) => page.locator('main[data-usable]').waitFor(SLOW);

export interface KeptTune {
  id: string;
  title: string;
  tuning: number[];
  goalTempo: number;
  form: string;
  origin: string;
  parts: { name: string; measures: { id: string; figureId: string }[] }[];
  figures: { id: string; strikes: unknown[] | null }[];
  layers: { id: string; changes: Record<string, string> }[];
}

export interface KeptEntry {
  kind: 'pass' | 'correction';
  id: string;
  drillId: string;
  passId?: string;
  outcome: string;
  tempo?: number;
}

export interface KeptSitting {
  id: string;
  note: string;
  origin: string;
  drills: { id: string }[];
  log: KeptEntry[];
}

/** Every record of the book's tables as IndexedDB holds it, read without the app's own code. */
export interface KeptBook {
  tunes: KeptTune[];
  sittings: KeptSitting[];
  sitting: { sitting: { id: string } }[];
  drills: { n: number; id: string; drill: { id: string; sittingId: string } }[];
  passes: { n: number; id: string; entry: KeptEntry }[];
  settings: { key: string; value: unknown }[];
}

export function readKept(page: Page): Promise<KeptBook> {
  return page.evaluate(async () => {
    const settled = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => {
          resolve(request.result);
        };
        request.onerror = () => {
          reject(request.error ?? new Error('IndexedDB failed'));
        };
      });
    const names = ['tunes', 'sittings', 'sitting', 'drills', 'passes', 'settings'];
    const db = await settled(indexedDB.open('phrasewright'));
    const tables = db.transaction(names);
    const rows = await Promise.all(names.map((name) => settled(tables.objectStore(name).getAll())));
    db.close();
    return Object.fromEntries(names.map((name, index) => [name, rows[index]]));
  }) as Promise<unknown> as Promise<KeptBook>;
}

/** The outcome that holds for each pass, in playing order: the last correction of a pass wins. */
export function outcomes(log: readonly KeptEntry[]): string[] {
  const latest = new Map<string, string>();
  for (const entry of log) latest.set(entry.passId ?? entry.id, entry.outcome);
  return [...latest.values()];
}

/** Resolves when the service worker that the app registers has everything and answers for this page. */
export async function installOffline(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((resolve) => setTimeout(resolve, 20));
  });
}

/** A measure of the form's board by its label: `A5`. */
export const formTile = (page: Page, label: string) =>
  button(page, new RegExp(`^Measure ${label.slice(1)}, part ${label.charAt(0)}\\b`));

export interface NewTune {
  title: string;
  tuning?: string;
  goal?: number;
  /** Pairs of measures that are the same: the later one first. */
  shared?: readonly (readonly [string, string])[];
}

/** Fills the form of `/add/` by touch and keeps the tune: ends on the drill of its first measure. */
export async function addTune(page: Page, { title, tuning, goal, shared = [] }: NewTune): Promise<void> {
  await page.getByLabel('Title').fill(title);
  if (tuning) await page.getByRole('radio', { name: tuning }).check();
  if (goal) await page.getByLabel(/^Goal/).fill(String(goal));
  for (const [later, earlier] of shared) {
    await formTile(page, later).click();
    await button(page, 'Same as …').click();
    await formTile(page, earlier).click();
    await page.getByText(`${later} is ${earlier} again.`).waitFor(SLOW);
  }
  await button(page, /^Keep this tune/).click();
  await page.waitForURL(/\/drill\/\?/, SLOW);
  await page.locator('main.drill').waitFor(SLOW);
}

/** One word of the drill screen, or one entry of the log that was written, at a time of the page's clock in ms. */
interface Seen {
  words: { at: number; word: string; isBreath: boolean }[];
  writes: { askedAt: number; doneAt: number | null; entry: KeptEntry }[];
}

/** Notes from now on, in this page and in those it goes to, each word of the drill screen and each write to the log. */
export async function watchDrill(page: Page): Promise<void> {
  const watch = () => {
    if ('drillSeen' in globalThis) return;
    const seen: Seen = { words: [], writes: [] };
    Object.assign(globalThis, { drillSeen: seen });
    new MutationObserver(() => {
      const word = document.querySelector('.drill .word')?.textContent;
      const isBreath = document.querySelector('.drill.breathing') !== null;
      const last = seen.words.at(-1);
      if (word === undefined || word === '' || (last?.word === word && last.isBreath === isBreath)) return;
      seen.words.push({ at: performance.now(), word: word ?? '', isBreath });
    }).observe(document, {
      subtree: true,
      childList: true,
      characterData: true,
      attributes: true,
    });
    const add = Object.getOwnPropertyDescriptor(IDBObjectStore.prototype, 'add')?.value as (
      this: IDBObjectStore,
      value: unknown,
    ) => IDBRequest<IDBValidKey>;
    IDBObjectStore.prototype.add = function (value: { entry: KeptEntry }) {
      if (this.name === 'passes') {
        const write: Seen['writes'][number] = {
          askedAt: performance.now(),
          doneAt: null,
          entry: value.entry,
        };
        seen.writes.push(write);
        this.transaction.addEventListener('complete', () => (write.doneAt = performance.now()));
      }
      return add.call(this, value);
    };
  };
  await page.addInitScript(watch);
  await page.evaluate(watch);
}

export const drillSeen = (page: Page): Promise<Seen> =>
  page.evaluate(() => (globalThis as unknown as { drillSeen: Seen }).drillSeen);

/** The mark that stood at the end of each breath, and the log as it was on disk when the next count-in began. */
export function breaths({ words, writes }: Seen): { mark: string; onDisk: string[]; shown: string[] }[] {
  const marks: string[] = [];
  const ended: { mark: string; onDisk: string[]; shown: string[] }[] = [];
  for (const [index, { word, isBreath }] of words.entries()) {
    const next = words[index + 1];
    if (!isBreath || next?.isBreath !== false) continue;
    if (word !== 'unmarked') marks.push(word);
    const log = writes.filter(({ doneAt }) => doneAt !== null && doneAt < next.at).map(({ entry }) => entry);
    ended.push({ mark: word, onDisk: outcomes(log), shown: [...marks] });
  }
  return ended;
}

/** Where a finger lands on the one big surface, whatever it says at the moment. */
async function surface(page: Page): Promise<[number, number]> {
  const box = await page.locator('.touch').boundingBox(SLOW);
  if (!box) throw new Error('The drill has no surface to touch.');
  return [box.x + box.width / 2, box.y + box.height / 3];
}

export async function touch(page: Page, times = 1): Promise<void> {
  const [x, y] = await surface(page);
  for (let time = 0; time < times; time++) await page.touchscreen.tap(x, y);
}

export const wordIs = (page: Page, word: RegExp) =>
  page.locator('.drill .word', { hasText: word }).waitFor(SLOW);

/** From the look or a pause to the first pass. */
export async function begin(page: Page): Promise<void> {
  await touch(page);
  await wordIs(page, /count-in|pass/);
}

/** Waits for the next breath, marks by so many touches, and waits for it to end. */
export async function markNext(page: Page, touches: number, act = touch): Promise<void> {
  await page.locator('.drill.breathing').waitFor(SLOW);
  await act(page, touches);
  await page.locator('.drill:not(.breathing)').waitFor(SLOW);
}

/** Touches while the pass is still sounding: it broke down. */
export async function breakDown(page: Page): Promise<void> {
  await wordIs(page, /^pass \d/);
  await touch(page);
  await page.locator('.drill:not(.breathing)').waitFor(SLOW);
}

export interface PlannedItem {
  name: string;
  reason: string;
}

/** What Today plans, once it was made from the log as it stands. */
export async function readPlan(page: Page): Promise<PlannedItem[]> {
  await page.locator('.plan ol li').first().waitFor(SLOW);
  return page.locator('.plan ol li').evaluateAll((items) =>
    items.map((item) => ({
      name: item.querySelector('b')?.textContent ?? '',
      reason: item.querySelector('.why')?.textContent ?? '',
    })),
  );
}
