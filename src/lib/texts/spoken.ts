/** The languages that are complete; English is the one the app is written in. */
export type Language = 'en' | 'de';
/** The texts of one language by area, as `de/index.ts` lists them. */
export type Catalogue = Readonly<Record<string, object>>;

const LOCALES: Record<Language, string> = { en: 'en-GB', de: 'de-DE' };

let language: Language = 'en';
let translation: Catalogue | null = null;

/** The BCP 47 tag by which `Intl` writes dates, figures, lists and plurals. */
export const locale = (): string => LOCALES[language];

/**
 * The texts of one area in the language that is spoken. They are looked up when they are read, so a file must not keep
 * one in a constant of its own: a file may be read before the language is known. None is called `then`, or whoever awaits
 * the texts would wait for it.
 */
export function spoken<Texts extends object & { then?: never }>(area: string, english: Texts): Texts {
  return new Proxy(english, {
    get: (own, key) => Reflect.get(translation?.[area] ?? own, key) as unknown,
  });
}

/** Of the languages someone reads, best first, the first one the app has; English when it has none of them. */
export function languageFor(read: readonly string[]): Language {
  for (const tag of read) {
    const primary = tag.toLowerCase().split('-')[0];
    if (primary === 'en' || primary === 'de') return primary;
  }
  return 'en';
}

/**
 * Takes up the language that a reader of `read` (BCP 47 tags, best first) is spoken to in. A page and each of its workers
 * call it once, before they say anything. A translation that cannot be fetched leaves the app in English.
 */
export async function speakTo(read: readonly string[]): Promise<Language> {
  const asked = languageFor(read);
  if (asked === 'de') {
    const fetched = await import('./de').catch(() => null);
    if (!fetched) return language;
    translation = fetched.de;
    language = asked;
  }
  return language;
}
