import { say } from '$lib/texts/book';
import type { Restored } from './stamp';
import { StoreTrouble } from './trouble';

/** The state of the second copy: `why` is a sentence when there is none. */
export type SecondCopyState = { isKept: true } | { isKept: false; why: string };

/** What is said of a second copy after its first failure. */
export function copyFailed(error: unknown): SecondCopyState {
  const reason = error instanceof Error ? error.message : String(error);
  return { isKept: false, why: say.copyFailed(reason) };
}

export function closedElsewhere(): StoreTrouble {
  return new StoreTrouble('blocked', say.closedElsewhere, say.savedIsSafe);
}

/** `what` was not done, by the texts' name for it; `damage` says what is wrong, in sentences. */
export function damagedTrouble(what: keyof typeof say.notDone, damage: readonly string[]): StoreTrouble {
  return new StoreTrouble('damaged', `${say.notDone[what]}: ${damage.join('; ')}.`, say.unchanged);
}

/** What is said after a start that put something back; `null` when nothing was. */
export function recoveredSentence({ tunes, sittings, passes }: Restored): string | null {
  return Math.max(tunes, sittings, passes) <= 0 ? null : say.recovered(tunes, sittings, passes);
}

/** What is said when damaged records were met for the first time; `null` when none were. */
export function asideSentence(added: number, restored: number): string | null {
  return added === 0 ? null : say.setAside(added, restored);
}
