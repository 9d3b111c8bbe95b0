import { passageFromKey, type PassageKey } from '../tune/passage';
import { passageBeats } from '../tune/places';
import { candidate, type Candidate } from './candidates';
import { yourChoice } from './reasons';
import type { LinkState, TuneState } from './tune-state';

/** What the learner wants in, in that order; what cannot be played is passed over. */
export function pinnedCandidates(
  keys: readonly PassageKey[],
  states: readonly TuneState[],
  found: readonly Candidate[],
): Candidate[] {
  return keys.flatMap((key) => {
    const known = found.find(({ link }) => link.key === key);
    if (known) return [known];
    const tuneId = passageFromKey(key)?.tuneId;
    const state = states.find(({ tune }) => tune.id === tuneId);
    const item = state && (linkOf(state, key) ?? phraseOf(state, key));
    return item ? [candidate(state, item, 'your choice', 1, () => yourChoice(item, state.goal))] : [];
  });
}

function linkOf({ figures, seams, parts, whole }: TuneState, key: PassageKey): LinkState | undefined {
  return [...figures, ...seams, ...parts, whole].find(({ link }) => link.key === key);
}

/** A run of measures is in none of a tune's lists. */
function phraseOf({ tune, look }: TuneState, key: PassageKey): LinkState | null {
  const passage = passageFromKey(key);
  if (passage?.kind !== 'phrase') return null;
  const beats = passageBeats(tune, passage);
  return beats > 0 ? look({ key, passage, beats }) : null;
}
