import { foldPrint } from '../practice/fold-print';
import { packStates, unpackStates, type PackedStates } from '../practice/packed-states';
import type { PassageState } from '../practice/passage-state';
import { Standings, type StandingsSnapshot } from '../practice/standings';
import type { Moment } from '../time/moment';
import type { Id, Tune } from '../tune/tune';
import { WeekTally, type KeptWeeks } from './weeks';

/** The log folded, as it is kept between two starts: a head, and a part for each tune that has been played. Plain data. */
export interface KeptFold {
  head: FoldHead;
  parts: FoldPart[];
}

export type FoldHead = Omit<StandingsSnapshot, 'states'>;

export interface FoldPart {
  tuneId: Id;
  states: PackedStates;
  weeks: KeptWeeks;
}

/** What the log comes to. */
export interface Folded {
  standings: Standings;
  tally: WeekTally;
}

let print: string | null = null;

/** The sealed part of a fold; `of`: the parts of these tunes only. `null` when it must not be kept (see `Standings.snapshot`). */
export function keepFold({ standings, tally }: Folded, of: ReadonlySet<Id> | null = null): KeptFold | null {
  const snapshot = standings.snapshot(of);
  if (!snapshot) return null;
  const { states, ...rest } = snapshot;
  const byTune = new Map<Id, PassageState[]>();
  for (const state of states) {
    const { tuneId } = state.passage;
    const known = byTune.get(tuneId);
    if (known) known.push(state);
    else byTune.set(tuneId, [state]);
  }
  const parts = tally
    .keep(of)
    .map(([tuneId, weeks]) => ({ tuneId, states: packStates(byTune.get(tuneId) ?? []), weeks }));
  return { head: { ...rest, print: (print ??= foldPrint()) }, parts };
}

/**
 * Goes on from what was kept, all parts of it; `null` when it was made by another version of the fold or for another
 * beginning of the day, or is damaged. That it was made from this log, and of these tunes, the caller has to know.
 */
export function resumeFold(
  { head, parts }: KeptFold,
  tunes: readonly Tune[],
  now: Moment,
  dayStartsAtHour: number,
): Folded | null {
  if (head.print !== (print ??= foldPrint()) || head.dayStartsAtHour !== dayStartsAtHour) return null;
  const states = unpackedOf(parts);
  if (!states) return null;
  return {
    standings: Standings.fromSnapshot({ ...head, states }, tunes, now),
    tally: new WeekTally(
      tunes,
      dayStartsAtHour,
      parts.map(({ tuneId, weeks }) => [tuneId, weeks]),
    ),
  };
}

function unpackedOf(parts: readonly FoldPart[]): PassageState[] | null {
  try {
    return parts.flatMap(({ states }) => unpackStates(states));
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
