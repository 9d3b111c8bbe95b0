import { say } from '../../texts/plan';
import type { Moment } from '../time/moment';
import type { PassageKey } from '../tune/passage';
import { passageName } from '../tune/passage-name';
import type { Id } from '../tune/tune';
import { candidatesOf, type Candidate } from './candidates';
import { isNew } from './choose';
import type { TuneState } from './tune-state';

/** A day brings one new thing by itself, and one more when it is asked for. */
const NEW_THINGS_ASKED = 2;

/** The tunes of which a figure was played for the first time today: each is a new thing of the day. */
export function begunToday(states: readonly TuneState[]): ReadonlySet<Id> {
  return new Set(
    states
      .filter(({ figures }) =>
        figures.some(({ standing, daysAway }) => standing.days === 1 && daysAway === 0),
      )
      .map(({ tune }) => tune.id),
  );
}

/** Leaves out what would be a second new thing of the day. */
export function oneNewThing(candidates: readonly Candidate[], begun: ReadonlySet<Id>): Candidate[] {
  if (begun.size === 0) return [...candidates];
  return candidates.filter((item) => !isNew(item) || begun.has(item.state.tune.id));
}

export interface AskedFacts {
  states: readonly TuneState[];
  /** The new things that the plan has already. */
  planned: readonly Candidate[];
  begun: ReadonlySet<Id>;
  skipped: ReadonlySet<PassageKey>;
  inHand: string | null;
  now: Moment;
}

/** The one more new thing that was asked for: the most worthwhile, rather in the tuning in hand; or why there is none. */
export function oneMoreNew(facts: AskedFacts): Candidate | string {
  const { states, planned, begun, skipped, inHand, now } = facts;
  if (begun.size >= NEW_THINGS_ASKED) {
    const titles = states.filter(({ tune }) => begun.has(tune.id)).map(({ tune }) => tune.title);
    return say.askedEnough(titles);
  }
  const taken = new Set([...begun, ...planned.map(({ state }) => state.tune.id)]);
  let best: Candidate | null = null;
  for (const state of states) {
    if (taken.has(state.tune.id)) continue;
    for (const item of candidatesOf(state, now)) {
      if (!isNew(item) || skipped.has(item.link.key)) continue;
      if (!best || isRather(item, best, inHand)) best = item;
    }
  }
  return best ?? say.askedNothingReady;
}

function isRather(a: Candidate, b: Candidate, inHand: string | null): boolean {
  const closer = Number(a.state.tuning === inHand) - Number(b.state.tuning === inHand);
  return closer !== 0 ? closer > 0 : a.worth > b.worth;
}

/** What became of the wish: `item` is what was found for it. */
export function askedSentence({ state, link }: Candidate, isPlanned: boolean): string {
  const name = passageName(state.tune, link.passage);
  return isPlanned ? say.asked(state.tune.title, name) : say.askedNoRoom(state.tune.title, name);
}
