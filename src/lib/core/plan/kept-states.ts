import type { Moment } from '../time/moment';
import { practiceDay, type PracticeDay } from '../time/practice-day';
import type { Tune } from '../tune/tune';
import { candidatesOf, withoutStretches, type Candidate } from './candidates';
import { played } from './stretches';
import { tuneState, type StandingSource, type TuneState } from './tune-state';

/** What a plan asks of one tune: its state, and what it offers once that is asked for. */
export interface TuneCase {
  state: TuneState | null;
  candidates: () => readonly Candidate[];
  withoutStretches: () => readonly Candidate[];
}

interface Kept extends TuneCase {
  /** The practice day by the learner's settings, and by the calendar of the words. */
  days: readonly [PracticeDay, PracticeDay];
  revision: number;
  expectation: number | null;
}

/** A large book has hundreds of tunes, and a pass changes one: the others are as they were, for this day. */
const kept = new WeakMap<StandingSource, WeakMap<Tune, Kept>>();

/** The same as made anew: tunes are never changed in place, and standings say when they move. */
export function tuneCase(tune: Tune, standings: StandingSource, now: Moment): TuneCase {
  let known = kept.get(standings);
  if (!known) kept.set(standings, (known = new WeakMap()));
  const days = [standings.today, practiceDay(now)] as const;
  const revision = standings.revisionOf(tune.id);
  const before = known.get(tune);
  if (before?.revision === revision && before.days.every((day, at) => day === days[at])) {
    if (before.expectation === null || before.expectation === standings.expectation) return before;
  }
  const state = tuneState(tune, standings, now);
  let found: readonly Candidate[] | null = null;
  let others: readonly Candidate[] | null = null;
  const made: Kept = {
    ...{ days, revision, state },
    expectation: isAllPlayed(state) ? null : standings.expectation,
    candidates: () => (found ??= state ? candidatesOf(state, now) : []),
    withoutStretches: () => (others ??= state ? withoutStretches(state, now) : []),
  };
  known.set(tune, made);
  return made;
}

function isAllPlayed(state: TuneState | null): boolean {
  if (!state) return true;
  const { figures, seams, parts, whole } = state;
  return [...figures, ...seams, ...parts, whole].every(played);
}
