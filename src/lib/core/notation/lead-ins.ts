import { say } from '../../texts/reading';
import { add, equal } from '../rhythm/rational';
import type { Warnings } from './reading';
import { completes, isShort, together, type Fragment, type Plan, type Unit } from './score-units';

/** A plan whose short first and last measures were made whole, and what is played before its first full measure. */
export interface WholePlan extends Plan {
  pickup: Fragment | null;
}

/**
 * Joins the short last measure of each unit with the short first measure that leads into the next (or into itself
 * again): one measure as players count them. Where a unit is followed by several different lead-ins, it keeps the one
 * into its own repeat, as players learn a part, with a warning. What does not come out full stays as it is written.
 */
export function joinLeadIns(plan: Plan, warnings: Warnings): WholePlan {
  const { pickup, played, after } = withoutLoneLeadIns(plan);
  const { units } = plan;
  const followers = followersOf(played, units.length);
  const opener = pickup === null ? (played[0] ?? -1) : -1;
  const absorbed = units.map((_, unit) => leadsIn(units, unit, opener, followers));
  const ownPickup = absorbed[opener] ? (units[opener]?.fragments[0] ?? null) : null;
  const opening = pickup ?? ownPickup;
  const whole = units.map((unit, index): Unit => {
    const leads = [...(followers[index] ?? [])].map((next) =>
      next === END ? null : absorbed[next] ? (units[next]?.fragments[0] ?? null) : null,
    );
    const alone = after.get(index);
    const followed = [...(followers[index] ?? [])].some((next) => next !== END);
    const kept = unit.fragments.slice(absorbed[index] ? 1 : 0);
    const last = kept.pop();
    const tail = last
      ? [wholeTail(last, alone ? [alone, ...leads] : leads, opening, followed, warnings)]
      : [];
    return { ...unit, fragments: [...kept, ...tail] };
  });
  return { units: whole, played, pickup: opening };
}

/** What comes after the last playing. */
const END = -1;

/** For each unit what is played after it: itself first, then in the order of playing. */
function followersOf(played: readonly number[], count: number): Set<number>[] {
  const followers = Array.from({ length: count }, () => new Set<number>());
  for (const [at, unit] of played.entries()) {
    const next = played[at + 1] ?? END;
    const before = followers[unit];
    if (next === unit) followers[unit] = new Set([unit, ...(before ?? [])]);
    else before?.add(next);
  }
  return followers;
}

/** Short measures that stand alone: the first is the tune's pickup, others complete the unit before them. */
function withoutLoneLeadIns({ units, played }: Plan): {
  pickup: Fragment | null;
  played: number[];
  after: Map<number, Fragment>;
} {
  const after = new Map<number, Fragment>();
  let pickup: Fragment | null = null;
  const kept: number[] = [];
  for (const [at, index] of played.entries()) {
    const alone = units[index]?.isLeadIn ? units[index].fragments[0] : undefined;
    const before = kept.at(-1);
    const last = before === undefined ? undefined : units[before]?.fragments.at(-1);
    const isLast = at === played.length - 1;
    if (alone && at === 0 && !isLast) pickup = alone;
    else if (alone && before !== undefined && last && !isLast && completes(last, alone))
      after.set(before, alone);
    else kept.push(index);
  }
  return { pickup, played: kept, after };
}

/** True when the unit's short first measure completes the last one of whatever is played before it, or opens the tune. */
function leadsIn(
  units: readonly Unit[],
  unit: number,
  opener: number,
  followers: readonly ReadonlySet<number>[],
): boolean {
  const fragments = units[unit]?.fragments ?? [];
  const [lead] = fragments;
  if (!lead || fragments.length < 2 || !isShort(lead)) return false;
  const before = followers.flatMap((next, index) => (next.has(unit) ? [units[index]] : []));
  const completesAll = before.every((one) => {
    const last = one?.fragments.at(-1);
    return last !== undefined && completes(last, lead);
  });
  return completesAll && (before.length > 0 || opener === unit);
}

/** A unit's last measure, made whole by the first of the lead-ins that follow it (`null`: something else follows). */
function wholeTail(
  last: Fragment,
  leads: readonly (Fragment | null)[],
  pickup: Fragment | null,
  followed: boolean,
  warnings: Warnings,
): Fragment {
  const lead = leads.find((one) => one !== null);
  if (lead && completes(last, lead)) {
    const other = leads.find((one) => one && !sameNotes(one, lead));
    if (other) {
      warnings.add(other.line, other.column, say.otherLeadIn);
    }
    return together(last, lead);
  }
  const { full } = last;
  const closes = pickup && full && isShort(last) && equal(add(last.length, pickup.length), full);
  if (!closes) return last;
  if (followed) {
    warnings.add(last.line, last.column, say.shortByThePickup);
  }
  return { ...last, length: full };
}

function sameNotes(a: Fragment, b: Fragment): boolean {
  return JSON.stringify(a.notes) === JSON.stringify(b.notes);
}
