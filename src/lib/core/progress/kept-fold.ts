import { foldPrint } from '../practice/fold-print';
import { Standings, type StandingsSnapshot } from '../practice/standings';
import type { Moment } from '../time/moment';
import type { Id, Tune } from '../tune/tune';
import { WeekTally, type KeptTally } from './weeks';

/** The log folded, as it is kept between two starts: a head, and a part for each tune that has been played. Plain data. */
export interface KeptFold {
  head: FoldHead;
  parts: FoldPart[];
}

export type FoldHead = Omit<StandingsSnapshot, 'states'>;

export interface FoldPart {
  tuneId: Id;
  states: StandingsSnapshot['states'];
  weeks: KeptTally[number][1];
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
  const parts = new Map<Id, FoldPart>();
  for (const [tuneId, weeks] of tally.keep(of)) parts.set(tuneId, { tuneId, states: [], weeks });
  for (const state of states) parts.get(state.passage.tuneId)?.states.push(state);
  return { head: { ...rest, print: (print ??= foldPrint()) }, parts: [...parts.values()] };
}

/**
 * Goes on from what was kept, all parts of it; `null` when it was made by another version of the fold or for another
 * beginning of the day. That it was made from this log, and of these tunes, the caller has to know.
 */
export function resumeFold(
  { head, parts }: KeptFold,
  tunes: readonly Tune[],
  now: Moment,
  dayStartsAtHour: number,
): Folded | null {
  if (head.print !== (print ??= foldPrint()) || head.dayStartsAtHour !== dayStartsAtHour) return null;
  const states = parts.flatMap((part) => part.states);
  return {
    standings: Standings.fromSnapshot({ ...head, states }, tunes, now),
    tally: new WeekTally(
      tunes,
      dayStartsAtHour,
      parts.map(({ tuneId, weeks }) => [tuneId, weeks]),
    ),
  };
}
