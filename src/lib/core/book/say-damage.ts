import { say } from '../../texts/damage';

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
      return LISTS.includes(path[depth - 1]) ? say.record(step + 1) : say.item(step + 1);
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
  return sayAt([...prefix, ...(fault.path ?? []).map(({ key }) => key)], faultReason(fault));
}

/** A reason after its place: `pickup, beats: 4 is a measure or more`. */
export function sayAt(path: readonly unknown[], reason: string): string {
  return path.length === 0 ? reason : `${placeWords(path)}: ${reason}`;
}

function faultReason({ kind, type, message, expected, input }: Fault): string {
  if (kind === 'validation') return message;
  if (expected === 'never') return say.notField;
  if (input === undefined) return say.missing;
  const kinds: Readonly<Record<string, (value: string) => string>> = say.kinds;
  const ofKind = kinds[type];
  if (ofKind) return ofKind(show(input));
  if (expected === null) return say.isNotFitting(show(input));
  const wanted = expected
    .replaceAll('"', '')
    .replaceAll(' | ', ', ')
    .replace(/^\((.*)\)$/, '$1');
  const isChoice = type === 'picklist' || type === 'variant';
  return isChoice ? say.isNoneOf(show(input), wanted) : say.isNot(show(input), wanted);
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
    return this.#more > 0 ? [...this.#said, say.more(this.#more)] : [...this.#said];
  }
}
