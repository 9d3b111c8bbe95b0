import type { PracticeDesk } from './practice-desk';

export type DeskVerb = Exclude<keyof PracticeDesk, symbol>;

/** A question to the desk: which of its methods, with what. Plain data. */
export interface DeskQuestion<Verb extends DeskVerb = DeskVerb> {
  id: number;
  verb: Verb;
  input: Parameters<PracticeDesk[Verb]>;
}

export type DeskAnswer = { id: number; value: unknown } | { id: number; error: string };

/** Asks the desk; what it throws becomes the answer's `error`. */
export function answer(desk: PracticeDesk, { id, verb, input }: DeskQuestion): DeskAnswer {
  try {
    const ask = desk[verb].bind(desk) as (...input: unknown[]) => unknown;
    return { id, value: ask(...input) };
  } catch (error) {
    return { id, error: error instanceof Error ? error.message : String(error) };
  }
}
