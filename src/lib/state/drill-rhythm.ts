import type { Settings } from '$lib/core/book/settings';
import type { DrillRhythm } from '$lib/core/practice/drill-segments';
import type { Stretch } from '$lib/core/tune/places';
import type { Tune } from '$lib/core/tune/tune';

/** How a drill of these stretches goes, by what the learner has set. */
export function drillRhythm({ meter }: Tune, stretches: readonly Stretch[], settings: Settings): DrillRhythm {
  const { clickPattern: pattern, swing, silentMeasures, countIn, spokenCount, breath } = settings;
  const click = { pattern, swing, ...(silentMeasures ? { silentMeasures } : {}) };
  return { meter, stretches, ...click, countIn, spokenCount, breath };
}
