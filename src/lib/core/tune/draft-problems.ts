import { meterShape, TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import { FORM_MAX, MEASURES_MAX, TITLE_MAX } from './limits';
import type { TuneDraft } from './make-tune';

export type DraftField = 'title' | 'form' | 'measures' | 'goalTempo' | 'pickup';

export interface DraftProblem {
  field: DraftField;
  /** What is wrong and what to do, in one sentence. */
  sentence: string;
}

/** Everything that keeps a draft from being kept; empty when it can be. */
export function draftProblems(draft: TuneDraft): DraftProblem[] {
  const problems: DraftProblem[] = [];
  const say = (field: DraftField, sentence: string): void => void problems.push({ field, sentence });
  if (draft.title.trim() === '') say('title', 'Give the tune a title.');
  if (draft.title.length > TITLE_MAX) say('title', `Keep the title under ${TITLE_MAX + 1} letters.`);
  if (!isForm(draft.form)) {
    say('form', `Write the form as the parts are played, in capital letters: AABB (up to ${FORM_MAX}).`);
  }
  const letters = new Set(draft.form);
  const named = new Set(draft.parts.map(({ name }) => name));
  for (const letter of letters) {
    if (isForm(draft.form) && !named.has(letter))
      say('form', `The form plays part ${letter}, which has no measures.`);
  }
  for (const { name, measures } of draft.parts) {
    if (!letters.has(name)) say('form', `Part ${name} has measures but the form never plays it.`);
    if (measures.length < 1 || measures.length > MEASURES_MAX) {
      say('measures', `Part ${name} needs 1 to ${MEASURES_MAX} measures.`);
    }
  }
  if (!(draft.goalTempo >= TEMPO_MIN && draft.goalTempo <= TEMPO_MAX)) {
    say('goalTempo', `Choose a goal between ${TEMPO_MIN} and ${TEMPO_MAX} beats a minute.`);
  }
  const { beats } = meterShape(draft.meter);
  if (draft.pickup && !(draft.pickup.beats > 0 && draft.pickup.beats < beats)) {
    say('pickup', `A pickup is shorter than a measure: under ${beats} beats.`);
  }
  return problems;
}

/** True for a form as players write it: `AABB`. */
export function isForm(form: string): boolean {
  return /^[A-Z]+$/.test(form) && form.length <= FORM_MAX;
}
