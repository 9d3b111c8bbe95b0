import type { PlanItem } from '$lib/core/plan/plan';
import { TEMPO_MAX, TEMPO_MIN } from '$lib/core/rhythm/meter';
import type { Id } from '$lib/core/tune/tune';
import { passageFromKey, passageKey, type Passage, type PassageKey } from '$lib/core/tune/passage';

/** What the drill screen is asked to drill; lives in its address, so that a reload comes back to it. */
export interface DrillOrder {
  passage: Passage;
  /** Beats per minute; `null`: the comfortable tempo of the passage's standing. */
  from: number | null;
  toward: number | null;
  minutes: number;
}

const DRILL_MINUTES = 4;

export function drillHref(item: PlanItem): string {
  return drillLink({
    passage: item.passage,
    from: item.startTempo,
    toward: item.towardTempo,
    minutes: item.minutes,
  });
}

export function drillLink({ passage, from, toward, minutes }: DrillOrder): string {
  const query = new URLSearchParams({ passage: passageKey(passage), minutes: String(minutes) });
  if (from !== null) query.set('from', String(from));
  if (toward !== null) query.set('toward', String(toward));
  return `/drill/?${query}`;
}

/** The screen that says why a passage stands where it stands. */
export function whyLink(key: PassageKey): string {
  return `/why/?${new URLSearchParams({ passage: key })}`;
}

/** The screen on which the banjo is tuned up for a tune. */
export function tuningLink(tuneId: Id): string {
  return `/tuning/?${new URLSearchParams({ tune: tuneId })}`;
}

/** Reads an address; `null` when it names no passage. Figures out of range are left out rather than trusted. */
export function readDrillLink(query: URLSearchParams): DrillOrder | null {
  const passage = passageFromKey(query.get('passage') ?? '');
  if (!passage) return null;
  const minutes = Number(query.get('minutes'));
  return {
    passage,
    from: tempoOf(query.get('from')),
    toward: tempoOf(query.get('toward')),
    minutes: minutes >= 1 && minutes <= 120 ? minutes : DRILL_MINUTES,
  };
}

function tempoOf(text: string | null): number | null {
  const tempo = Number(text);
  return text !== null && tempo >= TEMPO_MIN && tempo <= TEMPO_MAX ? Math.round(tempo) : null;
}

/** The screen on which one measure of a layer is written. */
export function measureLink(at: { tuneId: Id; layerId: Id; measureId: Id }): string {
  return `/measure/?${new URLSearchParams({ tune: at.tuneId, layer: at.layerId, measure: at.measureId })}`;
}

/** The screen from which a tune goes to another's book, whole. */
export function handOnLink(tuneId: Id): string {
  return `/hand-on/?${new URLSearchParams({ id: tuneId })}`;
}

/** The screen from which one layer of a tune is printed. */
export function sheetLink(tuneId: Id, layerId: Id): string {
  return `/sheet/?${new URLSearchParams({ id: tuneId, layer: layerId })}`;
}
