import { OUTCOMES, type Outcome } from './records';

/** What a breath says of the pass before it; `null`: not marked. */
export type Mark = Outcome | null;

/** Passes that run on in a handful before they are marked together. */
export const HANDFUL = 4;
/** Passages of at most so many measures may be drilled by the handful. */
export const HANDFUL_MEASURES_MAX = 2;

/** Each touch in the breath moves the word on by one: clean, stumbled, broke down, then unmarked (LOOK.md section 4). */
export function nextMark(mark: Mark): Mark {
  if (mark === null) return OUTCOMES[0];
  return OUTCOMES[OUTCOMES.indexOf(mark) + 1] ?? null;
}

/** After a handful each touch counts one more clean pass, then none clean, then unmarked. */
export function nextHandful(clean: number | null): number | null {
  if (clean === null) return 1;
  if (clean === 0) return null;
  return clean < HANDFUL ? clean + 1 : 0;
}

/** The marks of the four passes of a handful. Which of them were clean is not asked: the first ones are said to be. */
export function handfulMarks(clean: number | null): Mark[] {
  return Array.from({ length: HANDFUL }, (_, index) =>
    clean === null ? null : index < clean ? 'clean' : 'stumbled',
  );
}
