import type { Hands } from '../practice/records';
import { say } from '../../texts/plan';
import { LEAST_MINUTES, type Candidate } from './candidates';
import { isNew, type Chosen } from './choose';
import { PLAN_MINUTES_MAX } from './plan';

/** Tired or sore hands get less: minutes at most, and how much slower a drill begins. */
export const GENTLER: Record<Hands, { most: number; start: number }> = {
  fresh: { most: PLAN_MINUTES_MAX, start: 1 },
  stiff: { most: PLAN_MINUTES_MAX, start: 0.95 },
  tired: { most: 15, start: 0.9 },
  sore: { most: 5, start: 0.8 },
};

/** What tired or sore hands should know. */
export function cautionFor(hands: Hands): string | null {
  if (hands === 'tired') return say.tiredHands;
  return hands === 'sore' ? say.soreHands : null;
}

export function areGentle(hands: Hands): boolean {
  return hands === 'tired' || hands === 'sore';
}

/** What is left for hands that ask for less: nothing new and nothing faster, unless there is nothing else at all. */
export function withoutPushing(found: readonly Candidate[]): Candidate[] {
  const easy = found.filter((item) => !isNew(item));
  return (easy.length > 0 ? easy : found).map((item) => ({
    ...item,
    minutes: Math.max(item.leastMinutes, LEAST_MINUTES),
    // an easy plan refreshes before it pushes
    worth: item.reasonKind === 'rusty' ? item.worth + 0.5 : item.worth,
  }));
}

/** The starts and targets that suit the hands: slower, and for gentle ones never above where the drill would have begun. */
export function slowedFor(hands: Hands, item: Chosen): Chosen {
  const { start } = GENTLER[hands];
  if (start === 1) return item;
  const slowest = Math.ceil(item.link.beats / Math.max(1, item.given - 0.05));
  const startTempo = Math.max(
    20,
    Math.min(item.startTempo, Math.max(slowest, Math.round(item.startTempo * start))),
  );
  return { ...item, startTempo, towardTempo: areGentle(hands) ? item.startTempo : item.towardTempo };
}
