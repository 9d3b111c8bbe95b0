/** A value as it stands in a sentence: JSON of at most 60 characters. */
export function show(value: unknown): string {
  let text: string;
  try {
    text = JSON.stringify(value) ?? String(value);
  } catch {
    // a cycle or a BigInt: only a program can hand one in, and the sentence still has to be said
    text = String(value);
  }
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** `1st`, `2nd`, `3rd`, `11th`. */
export function ordinal(number: number): string {
  const tens = number % 100;
  const ending = tens > 10 && tens < 14 ? undefined : ['st', 'nd', 'rd'][(number % 10) - 1];
  return `${number}${ending ?? 'th'}`;
}

/** `goalTempo` -> `goal tempo`. Anything but a plain name is shown as it is. */
export function fieldWords(key: string): string {
  if (!/^[a-z][a-zA-Z]*$/.test(key)) return show(key);
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** The lists of a book: their items are records. */
const LISTS: readonly unknown[] = ['tunes', 'sittings', 'settings'];

/** A path of keys and indexes (from 0) in words: `tunes, 3rd record, goal tempo`. */
export function placeWords(path: readonly unknown[]): string {
  return path
    .map((step, depth) => {
      if (typeof step !== 'number') return fieldWords(String(step));
      return LISTS.includes(path[depth - 1]) ? `${ordinal(step + 1)} record` : ordinal(step + 1);
    })
    .join(', ');
}

/** What valibot tells of one fault, as far as a sentence needs it. */
export interface Fault {
  type: string;
  kind: string;
  message: string;
  expected: string | null;
  input: unknown;
  path?: readonly { key: unknown }[] | undefined;
}

/** One fault as a plain sentence: `tunes, 3rd record, goal tempo: 9000 is outside 20 to 300`. */
export function sayFault(fault: Fault, prefix: readonly unknown[] = []): string {
  const place = placeWords([...prefix, ...(fault.path ?? []).map(({ key }) => key)]);
  return place === '' ? faultReason(fault) : `${place}: ${faultReason(fault)}`;
}

const KINDS: Readonly<Record<string, string>> = {
  number: 'a number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  strict_object: 'a record',
  strict_tuple: 'a list of its length',
  record: 'a record',
};

function faultReason({ kind, type, message, expected, input }: Fault): string {
  if (kind === 'validation') return message;
  if (expected === 'never') return 'is not a field of this record';
  if (input === undefined) return 'is missing';
  const wanted = KINDS[type] ?? (expected ?? 'something else').replaceAll('"', '').replaceAll(' | ', ', ');
  return `${show(input)} is not ${type === 'picklist' || type === 'variant' ? 'one of ' : ''}${wanted.replace(/^\((.*)\)$/, '$1')}`;
}

/** How many sentences of damage are worth reading; the rest is counted. */
const DAMAGE_MAX = 20;

/** Damage in sentences: the first 20, and how many more. */
export class DamageList {
  readonly #said: string[] = [];
  #more = 0;

  get isEmpty(): boolean {
    return this.#said.length === 0;
  }

  add(sentence: string): void {
    if (this.#said.length < DAMAGE_MAX) this.#said.push(sentence);
    else this.#more += 1;
  }

  said(): string[] {
    return this.#more > 0 ? [...this.#said, `and ${this.#more} more`] : [...this.#said];
  }
}
