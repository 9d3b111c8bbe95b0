import type { SealedSitting } from '../practice/records';
import { countedPasses } from '../practice/settled-log';
import { DAY_MS, type Moment } from '../time/moment';
import { practiceDay, type PracticeDay } from '../time/practice-day';
import { passageKey, type PassageKey } from '../tune/passage';
import type { Id } from '../tune/tune';
import type { PlanRequest } from './plan';

/** A passage that the learner wants kept in the plan, and since when (UTC milliseconds). */
export interface Pin {
  key: PassageKey;
  at: number;
}

/** How the learner steers the plan of one practice day. A passage is never both skipped and pinned: the latest wish holds. */
export interface PlanWishes {
  day: PracticeDay;
  /** "Not today", the newest wish last. */
  skipped: readonly PassageKey[];
  /** "Keep it in", the newest wish last. */
  pinned: readonly Pin[];
  /** The plan's passages as the learner put them; kept as far as they are still in it. */
  order: readonly PassageKey[];
  /** One more new thing than a day brings by itself. */
  askedNew: boolean;
}

export function noWishes(day: PracticeDay): PlanWishes {
  return { day, skipped: [], pinned: [], order: [], askedNew: false };
}

/** What was kept of wishes, or none: when they are another day's, or were not written by this program. */
export function readWishes(kept: unknown, day: PracticeDay): PlanWishes {
  const none = noWishes(day);
  if (typeof kept !== 'object' || kept === null || (kept as Partial<PlanWishes>).day !== day) return none;
  const { skipped, pinned, order, askedNew } = kept as Record<keyof PlanWishes, unknown>;
  const isPin = (pin: unknown): pin is Pin =>
    typeof pin === 'object' &&
    pin !== null &&
    typeof (pin as Partial<Pin>).key === 'string' &&
    Number.isFinite((pin as Partial<Pin>).at);
  const pins = Array.isArray(pinned) ? pinned.filter(isPin).map(({ key, at }) => ({ key, at })) : [];
  const wanted = new Set(pins.map(({ key }) => key));
  return {
    day,
    skipped: keysIn(skipped).filter((key) => !wanted.has(key)),
    pinned: pins.filter(({ key }, index) => pins.findLastIndex((other) => other.key === key) === index),
    order: keysIn(order),
    askedNew: askedNew === true,
  };
}

function keysIn(list: unknown): PassageKey[] {
  if (!Array.isArray(list)) return [];
  return [...new Set(list.filter((key): key is PassageKey => typeof key === 'string'))];
}

export function notToday(wishes: PlanWishes, key: PassageKey): PlanWishes {
  return { ...letGo(putBack(wishes, key), key), skipped: [...without(wishes.skipped, key), key] };
}

/** Takes a "not today" back. */
export function putBack(wishes: PlanWishes, key: PassageKey): PlanWishes {
  return { ...wishes, skipped: without(wishes.skipped, key) };
}

/** Keeps a passage in. `shown`: the plan's passages as they stand; a passage among them keeps its place too. */
export function keepIn(
  wishes: PlanWishes,
  key: PassageKey,
  at: number,
  shown: readonly PassageKey[] = [],
): PlanWishes {
  const free = putBack(letGo(wishes, key), key);
  const order = shown.includes(key) ? [...shown] : free.order;
  return { ...free, order, pinned: [...free.pinned, { key, at }] };
}

/** Takes a "keep it in" back. */
export function letGo(wishes: PlanWishes, key: PassageKey): PlanWishes {
  return { ...wishes, pinned: wishes.pinned.filter((pin) => pin.key !== key) };
}

/** Puts `instead` in the place of `key`. `shown`: the plan's passages as they stand. */
export function exchange(
  wishes: PlanWishes,
  shown: readonly PassageKey[],
  key: PassageKey,
  { instead, at }: { instead: PassageKey; at: number },
): PlanWishes {
  const order = without(shown, instead).map((other) => (other === key ? instead : other));
  return { ...keepIn(notToday(wishes, key), instead, at), order };
}

/** Moves a passage of the plan to another place, from 0. `shown`: the plan's passages as they stand. */
export function moveTo(
  wishes: PlanWishes,
  shown: readonly PassageKey[],
  key: PassageKey,
  place: number,
): PlanWishes {
  if (!shown.includes(key)) return wishes;
  const order = without(shown, key);
  order.splice(Math.max(0, Math.min(place, order.length)), 0, key);
  return { ...wishes, order };
}

export function askNew(wishes: PlanWishes, askedNew: boolean): PlanWishes {
  return { ...wishes, askedNew };
}

function without(keys: readonly PassageKey[], key: PassageKey): PassageKey[] {
  return keys.filter((other) => other !== key);
}

/** A drill of today with at least one counted pass: of what, and when it began (UTC milliseconds). */
export interface Drilled {
  key: PassageKey;
  at: number;
}

/** The drills of the practice day of `now`, the newest last; a passage drilled twice is there twice. */
export function drilledToday(
  sittings: readonly Pick<SealedSitting, 'at' | 'offsetMin' | 'drills' | 'log'>[],
  now: Moment,
  dayStartsAtHour?: number,
): Drilled[] {
  const today = practiceDay(now, dayStartsAtHour);
  const found = new Map<Id, Drilled>();
  for (const sitting of sittings) {
    // a sitting is over long before two days are
    if (!(Math.abs(now.at - sitting.at) < 2 * DAY_MS)) continue;
    const counted = new Set(countedPasses(sitting.log).map(({ drillId }) => drillId));
    for (const drill of sitting.drills) {
      if (!counted.has(drill.id) || practiceDay(drill, dayStartsAtHour) !== today) continue;
      found.set(drill.id, { key: passageKey(drill.passage), at: drill.at });
    }
  }
  return [...found.values()].sort((a, b) => a.at - b.at || (a.key < b.key ? -1 : 1));
}

/** A request with the learner's wishes added. A pin is spent once its passage has been drilled since. */
export function withWishes(
  request: PlanRequest,
  { skipped, pinned, order, askedNew }: PlanWishes,
  drilled: readonly Drilled[],
): PlanRequest {
  const latest = new Map(drilled.map(({ key, at }) => [key, at]));
  const isOpen = ({ key, at }: Pin) => (latest.get(key) ?? -Infinity) < at;
  return {
    ...request,
    skip: [...(request.skip ?? []), ...skipped],
    pinned: [...(request.pinned ?? []), ...pinned.filter(isOpen).map(({ key }) => key)],
    ...{ order, askNew: askedNew, drilled: drilled.map(({ key }) => key) },
  };
}
