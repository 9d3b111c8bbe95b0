import path from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { de } from '../../src/lib/texts/de';

/** The files that hold texts in English, read anew after `vi.resetModules`. */
const FILES = import.meta.glob<{ say: object }>('../../src/lib/texts/*.ts');
const SOURCES = import.meta.glob<string>('../../src/lib/texts/*.ts', {
  eager: true,
  query: '?raw',
  import: 'default',
});
const pathOf = (area: string) => `../../src/lib/texts/${area}.ts`;
const areas = Object.entries(SOURCES)
  .filter(([, source]) => source.includes("= spoken('"))
  .map(([file]) => path.basename(file, '.ts'));

const camel = (name: string) => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());

/** What a tree of texts holds, by its path: the length of a list, the count of what a function takes, or that it is a text. */
function shape(texts: object, at = ''): Map<string, string> {
  const found = new Map<string, string>();
  for (const [key, value] of Object.entries(texts) as [string, unknown][]) {
    const place = `${at}${key}`;
    if (typeof value === 'function') found.set(place, 'function');
    else if (typeof value === 'object' && value !== null) {
      for (const [deeper, what] of shape(value, `${place}.`)) found.set(deeper, what);
    } else found.set(place, typeof value);
  }
  return found;
}

/** Texts without arguments, by their path. */
function plainTexts(texts: object, at = ''): [string, string][] {
  return Object.entries(texts).flatMap(([key, value]: [string, unknown]) => {
    if (typeof value === 'string') return [[`${at}${key}`, value] as [string, string]];
    return typeof value === 'object' && value !== null ? plainTexts(value, `${at}${key}.`) : [];
  });
}

async function english(area: string): Promise<object> {
  const file = await FILES[pathOf(area)]?.();
  if (!file) throw new Error(`No texts of ${area}.`);
  return file.say;
}

describe('the second language', () => {
  it('has every area, by the name of its file', () => {
    expect(Object.keys(de).toSorted()).toEqual(areas.map(camel).toSorted());
  });

  it.each(areas)('says all that English says of %s, and nothing else', async (area) => {
    const own = shape(await english(area));
    const other = shape(de[camel(area) as keyof typeof de]);
    expect(Object.fromEntries(other)).toEqual(Object.fromEntries(own));
  });

  it('leaves no text empty, and none of several words in English', async () => {
    const same: string[] = [];
    for (const area of areas) {
      const translated = new Map(plainTexts(de[camel(area) as keyof typeof de]));
      for (const [place, text] of plainTexts(await english(area))) {
        const other = translated.get(place) ?? '';
        if (text.trim() !== '' && other.trim() === '') same.push(`${area} ${place} is empty`);
        if (/\p{L}{2,} \p{L}{2,}/u.test(text) && other === text) same.push(`${area} ${place}: ${text}`);
      }
    }
    expect(same).toEqual([]);
  });
});

describe('which language is spoken', () => {
  afterEach(() => {
    vi.resetModules();
  });

  const fresh = () => import('../../src/lib/texts/spoken');

  it('is the first that the reader reads and the app has', async () => {
    const { languageFor } = await fresh();
    expect(languageFor(['de-AT', 'en'])).toBe('de');
    expect(languageFor(['fr', 'de', 'en'])).toBe('de');
    expect(languageFor(['en-US', 'de'])).toBe('en');
    expect(languageFor(['fr', 'pl'])).toBe('en');
    expect(languageFor([])).toBe('en');
  });

  it('is asked for when a text is read, not when its file is', async () => {
    const { speakTo } = await fresh();
    const { say } = await import('../../src/lib/texts/rim');
    expect(say.tunes).toBe('Tunes');
    expect(await speakTo(['de'])).toBe('de');
    expect(say.tunes).toBe('Stücke');
  });

  it('is the same in every area', async () => {
    const { speakTo } = await fresh();
    await speakTo(['de']);
    for (const area of areas) {
      expect(plainTexts(await english(area)), area).toEqual(plainTexts(de[camel(area) as keyof typeof de]));
    }
  });

  it('writes dates, figures, lists and plurals as the language does', async () => {
    const { speakTo } = await fresh();
    const { inDate, inFigures, listed, plural } = await import('../../src/lib/texts/figures');
    const day = Date.UTC(2026, 11, 31);
    const options = { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' } as const;
    const both = () => [
      inDate(day, options),
      inFigures(1204.5),
      listed(['A', 'B', 'C']),
      plural(1, { one: 'one', other: 'other' }),
      plural(0, { one: 'one', other: 'other' }),
    ];
    // Unicode CLDR 44, en-GB and de: date formats, number symbols, list patterns, plural rules (by way of the engine's ICU)
    expect(both()).toEqual(['31 December 2026', '1,204.5', 'A, B and C', 'one', 'other']);
    await speakTo(['de']);
    expect(both()).toEqual(['31. Dezember 2026', '1.204,5', 'A, B und C', 'one', 'other']);
  });
});
