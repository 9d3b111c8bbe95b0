import type { Page } from 'playwright';
import { readKept, SLOW, type KeptTune } from './learner';

/** What a learner does with the measure's editor, and what the book then holds. */
interface Written {
  onset: number[];
  duration: number[];
  string: number;
  fret: number;
  technique: string;
}

export const cell = (page: Page, name: RegExp) => page.getByRole('grid').getByRole('button', { name });
export const fret = (page: Page, number: number) =>
  page.getByRole('group', { name: 'Fret' }).getByRole('button', { name: String(number), exact: true });

/** What each measure of a tune's board holds in its first layer, in board order: `onset string:fret technique`. */
export async function held(page: Page, title?: string): Promise<(string[] | null)[]> {
  const tune = await tuneOf(page, title);
  const figures = new Map(tune?.figures.map(({ id, strikes }) => [id, strikes as Written[] | null]));
  return (tune?.parts ?? []).flatMap(({ measures }) =>
    measures.map(({ figureId }) => {
      const strikes = figures.get(figureId) ?? null;
      return strikes && strikes.map((s) => `${s.onset.join('/')} ${s.string}:${s.fret} ${s.technique}`);
    }),
  );
}

/** The editor on a measure of a tune, by its place on the board and the depth of a layer. */
export async function openMeasure(page: Page, index: number, title?: string, depth = 0): Promise<void> {
  const tune = await tuneOf(page, title);
  const measure = tune?.parts.flatMap(({ measures }) => measures)[index];
  const query = new URLSearchParams({
    tune: tune?.id ?? '',
    layer: tune?.layers[depth]?.id ?? '',
    measure: measure?.id ?? '',
  });
  await page.goto(`${new URL(page.url()).origin}/measure/?${query}`);
  await page.getByRole('grid').waitFor(SLOW);
}

/** The tune of a title; the only one when none is named. */
async function tuneOf(page: Page, title?: string): Promise<KeptTune | undefined> {
  return (await readKept(page)).tunes.find((tune) => title === undefined || tune.title === title);
}

/** The one draft in IndexedDB, read without the app's own code. */
export const keptDraft = (page: Page): Promise<unknown> =>
  page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const opening = indexedDB.open('phrasewright');
        opening.onerror = () => reject(opening.error ?? new Error('IndexedDB failed'));
        opening.onsuccess = () => {
          const range = IDBKeyRange.bound('draft/', 'draft/~');
          const found = opening.result.transaction('meta').objectStore('meta').get(range) as IDBRequest<
            { value: unknown } | undefined
          >;
          found.onsuccess = () => {
            opening.result.close();
            resolve(found.result?.value);
          };
        };
      }),
  );
