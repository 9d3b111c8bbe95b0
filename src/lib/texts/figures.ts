import { locale } from './spoken';

const kept = new Map<string, unknown>();

/** A formatter of `Intl` takes a hundred times as long to make as to use: one of a kind is kept for each language. */
function formatter<T>(kind: string, make: (locale: string) => T): T {
  const key = `${locale()} ${kind}`;
  const known = kept.get(key);
  if (known !== undefined) return known as T;
  const made = make(locale());
  kept.set(key, made);
  return made;
}

/** A number in figures, with the marks of the language: `1,204`, `2.5`. At most two decimals. */
export function inFigures(value: number): string {
  return formatter('number', (tag) => new Intl.NumberFormat(tag, { maximumFractionDigits: 2 })).format(value);
}

/** The form that a count asks for in the language: `one` for `1 pass`, `other` for `2 passes`. */
export function plural(count: number, forms: { one: string; other: string }): string {
  const rule = formatter('plural', (tag) => new Intl.PluralRules(tag)).select(count);
  return rule === 'one' ? forms.one : forms.other;
}

/** `A1, A2 and A3`. */
export function listed(words: readonly string[]): string {
  return formatter('list', (tag) => new Intl.ListFormat(tag, { type: 'conjunction' })).format(words);
}

/**
 * @param time milliseconds since 1970, UTC
 */
export function inDate(time: number, options: Intl.DateTimeFormatOptions): string {
  const kind = `date ${JSON.stringify(options)}`;
  return formatter(kind, (tag) => new Intl.DateTimeFormat(tag, options)).format(time);
}

/** A sentence with a capital letter at its head. */
export function capital(sentence: string): string {
  return sentence.charAt(0).toLocaleUpperCase(locale()) + sentence.slice(1);
}
