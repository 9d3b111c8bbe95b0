import type { Restored } from './stamp';
import { StoreTrouble } from './trouble';

/** The state of the second copy: `why` is a sentence when there is none. */
export type SecondCopyState = { isKept: true } | { isKept: false; why: string };

/** What is said of a second copy after its first failure. */
export function copyFailed(error: unknown): SecondCopyState {
  const reason = error instanceof Error ? error.message : String(error);
  const why = `The second copy of the book cannot be written (${reason}). The first one is kept; make a backup soon.`;
  return { isKept: false, why };
}

export function closedElsewhere(): StoreTrouble {
  return new StoreTrouble(
    'blocked',
    'The sitting was closed, perhaps in another tab, so this was not saved. Begin a new one.',
    'Everything that was saved before is safe.',
  );
}

export function damagedTrouble(what: string, damage: readonly string[]): StoreTrouble {
  return new StoreTrouble('damaged', `${what}: ${damage.join('; ')}.`, 'Nothing was changed.');
}

/** What is said after a start that put something back; `null` when nothing was. */
export function recoveredSentence({ tunes, sittings, passes }: Restored): string | null {
  const counts = [count(tunes, 'tune'), count(sittings, 'sitting'), count(passes, 'pass', 'passes')];
  const found = counts.filter((text) => text !== null);
  if (found.length === 0) return null;
  const list = found.length > 1 ? `${found.slice(0, -1).join(', ')} and ${found.at(-1)}` : found[0];
  return `The browser had lost part of the book. Its second copy put back ${list}.`;
}

/** What is said when damaged records were met for the first time; `null` when none were. */
export function asideSentence(added: number, restored: number): string | null {
  if (added === 0) return null;
  const what =
    added === 1
      ? 'A record of the book was damaged and is'
      : `${added} records of the book were damaged and are`;
  const back =
    restored === 0
      ? ''
      : restored >= added
        ? ' The second copy had it whole.'
        : ' The second copy had some of it whole.';
  return `${what} set aside; the rest is as it was.${back} Settings has the list.`;
}

function count(number: number, one: string, many = `${one}s`): string | null {
  return number <= 0 ? null : `${number} ${number === 1 ? one : many}`;
}
