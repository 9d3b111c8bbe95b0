import type { PlanItem } from '$lib/core/plan/plan';
import type { PassageKey } from '$lib/core/tune/passage';

/** What the learner can do about a line of the plan; each resolves when the plan has been made anew. */
export interface LineCommands {
  notToday(key: PassageKey): Promise<void>;
  putBack(key: PassageKey): Promise<void>;
  keepIn(key: PassageKey, isKept: boolean): Promise<void>;
  move(key: PassageKey, place: number): Promise<void>;
  exchange(key: PassageKey, instead: PassageKey): Promise<void>;
  alternatives(key: PassageKey): Promise<PlanItem[]>;
  askNew(isAsked: boolean): Promise<void>;
}

/** Something that the learner left out of today's plan. */
export interface LeftOutByYou {
  key: PassageKey;
  name: string;
  title: string;
}

export function isNewThing({ reasonKind }: Pick<PlanItem, 'reasonKind'>): boolean {
  return reasonKind === 'new figure' || reasonKind === 'next layer';
}
