import { emptyParts, makeTune, type TuneDraft } from '../../../src/lib/core/tune/make-tune';
import type { Tune } from '../../../src/lib/core/tune/tune';

export const NOW = { at: Date.UTC(2026, 10, 25, 18), offsetMin: 60 };

/** Ids that count up, each a well-formed UUID. */
export function countingIds(): () => string {
  let count = 0;
  return () => `0193c000-0000-7000-8000-${String((count += 1)).padStart(12, '0')}`;
}

/** A tune AABB of four measures a part, in 2/4, without tab; `change` is laid over the draft. */
export function sampleDraft(change: Partial<TuneDraft> = {}): TuneDraft {
  return {
    title: 'Old Marl Pit',
    tuning: [67, 48, 55, 60, 62],
    capo: 0,
    spike: 0,
    key: 'C',
    meter: '2/4',
    goalTempo: 112,
    form: 'AABB',
    parts: emptyParts('AABB', [4, 4], '2/4'),
    pickup: null,
    ...change,
  };
}

export function sampleTune(change: Partial<TuneDraft> = {}): Tune {
  return makeTune(sampleDraft(change), countingIds(), NOW);
}
