import { say } from '../../texts/tune-draft';
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
  const add = (field: DraftField, sentence: string): void => void problems.push({ field, sentence });
  if (draft.title.trim() === '') add('title', say.noTitle);
  if (draft.title.length > TITLE_MAX) add('title', say.titleTooLong(TITLE_MAX));
  if (!isForm(draft.form)) add('form', say.noForm(FORM_MAX));
  const letters = new Set(draft.form);
  const named = new Set(draft.parts.map(({ name }) => name));
  for (const letter of letters) {
    if (isForm(draft.form) && !named.has(letter)) add('form', say.noMeasures(letter));
  }
  for (const { name, measures } of draft.parts) {
    if (!letters.has(name)) add('form', say.notPlayed(name));
    if (measures.length < 1 || measures.length > MEASURES_MAX) {
      add('measures', say.measures(name, MEASURES_MAX));
    }
  }
  if (!(draft.goalTempo >= TEMPO_MIN && draft.goalTempo <= TEMPO_MAX)) {
    add('goalTempo', say.goal(TEMPO_MIN, TEMPO_MAX));
  }
  const { beats } = meterShape(draft.meter);
  if (draft.pickup && !(draft.pickup.beats > 0 && draft.pickup.beats < beats)) {
    add('pickup', say.pickup(beats));
  }
  return problems;
}

/** True for a form as players write it: `AABB`. */
export function isForm(form: string): boolean {
  return /^[A-Z]+$/.test(form) && form.length <= FORM_MAX;
}
