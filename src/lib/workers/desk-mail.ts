import type { LogDesk } from './log-desk';

export type DeskVerb = Exclude<keyof LogDesk, symbol>;

/** A question to the desk: which of its methods, with what. Plain data. */
export interface DeskQuestion<Verb extends DeskVerb = DeskVerb> {
  id: number;
  verb: Verb;
  input: Parameters<LogDesk[Verb]>;
}

export type DeskAnswer = { id: number; value: unknown } | { id: number; error: string };

/** Asks the desk; what it throws becomes the answer's `error`. */
export async function answer<Verb extends DeskVerb>(
  desk: Pick<LogDesk, Verb>,
  { id, verb, input }: DeskQuestion<Verb>,
): Promise<DeskAnswer> {
  try {
    const ask = desk[verb].bind(desk) as (...input: unknown[]) => unknown;
    return { id, value: await ask(...input) };
  } catch (error) {
    return { id, error: error instanceof Error ? error.message : String(error) };
  }
}
