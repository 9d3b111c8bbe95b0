import { say } from '../../texts/tab-missing';
import { measureLabel } from '../tune/passage-name';
import type { Passage } from '../tune/passage';
import { passageStretches } from '../tune/places';
import { isWritten } from '../tune/shared-measures';
import type { Tune } from '../tune/tune';

/** What a passage lacks to be heard. */
export interface TabMissing {
  /** Labels of the measures with neither tab nor melody, each once, in order: `['A2', 'B5']`. */
  labels: readonly string[];
  /** No measure of the passage has either: only the click is heard. */
  isAll: boolean;
  /** The above for the learner. */
  sentence: string;
}

/** The measures of a passage that the string cannot play: they have no tab yet, and no melody; `null` when there are none. */
export function tabMissing(tune: Tune, passage: Passage): TabMissing | null {
  const stretches = passageStretches(tune, passage);
  const lacking = stretches.filter(({ figure }) => !isWritten(figure));
  if (lacking.length === 0) return null;
  const labels = [...new Set(lacking.map(measureLabel))];
  if (lacking.length === stretches.length) {
    return { labels, isAll: true, sentence: say.all };
  }
  return { labels, isAll: false, sentence: say.some(labels) };
}
