import { foldPrint } from '../practice/fold-print';
import { packStates, unpackStates, type PackedStates } from '../practice/packed-states';
import type { PassageState } from '../practice/passage-state';
import { Standings, type StandingsSnapshot } from '../practice/standings';
import type { Moment } from '../time/moment';
import type { Id, Tune } from '../tune/tune';
import { KEPT_FIELDS, WeekTally, type KeptWeeks } from './weeks';

/**
 * The log folded, as it is kept between two starts: a head, and at most PARTS parts. Plain data. A database reads a few large
 * records many times faster than one for each tune, and a sitting changes few tunes, so few parts have to be written anew.
 */
export interface KeptFold {
  head: FoldHead;
  parts: FoldPart[];
}

export type FoldHead = Omit<StandingsSnapshot, 'states'>;

export interface FoldPart {
  /** 0 to PARTS - 1. */
  part: number;
  states: PackedStates;
  tuneIds: Id[];
  /** For each tune how many of `weeks` are its own. */
  weekCounts: number[];
  weeks: KeptWeeks;
}

const PARTS = 32;

/** What the log comes to. */
export interface Folded {
  standings: Standings;
  tally: WeekTally;
}

let print: string | null = null;

/** Changes with the fold and with what is kept of a week. */
function printNow(): string {
  return (print ??= `${foldPrint()} ${KEPT_FIELDS.join(' ')}`);
}

/**
 * The sealed part of a fold; `of`: only the parts in which these tunes are. `null` when it must not be kept (see
 * `Standings.snapshot`).
 */
export function keepFold({ standings, tally }: Folded, of: ReadonlySet<Id> | null = null): KeptFold | null {
  const touched = of && new Set(Array.from(of, partOf));
  const tuneIds = tally.tuneIds().filter((tuneId) => !touched || touched.has(partOf(tuneId)));
  const snapshot = standings.snapshot(touched && new Set(tuneIds));
  if (!snapshot) return null;
  const { states, ...rest } = snapshot;
  const byPart = new Map<number, { states: PassageState[]; tuneIds: Id[] }>();
  const contents = (tuneId: Id): { states: PassageState[]; tuneIds: Id[] } => {
    const part = partOf(tuneId);
    let known = byPart.get(part);
    if (!known) byPart.set(part, (known = { states: [], tuneIds: [] }));
    return known;
  };
  for (const tuneId of tuneIds) contents(tuneId).tuneIds.push(tuneId);
  for (const state of states) contents(state.passage.tuneId).states.push(state);
  const parts = Array.from(byPart, ([part, { states: ofPart, tuneIds: ids }]): FoldPart => {
    const weeks = tally.keep(ids).map(([, numbers]) => numbers);
    return {
      ...{ part, states: packStates(ofPart), tuneIds: ids, weekCounts: weeks.map(({ length }) => length) },
      weeks: Float64Array.from(weeks.flatMap((numbers) => Array.from(numbers))),
    };
  });
  return { head: { ...rest, print: printNow() }, parts };
}

/** The same at every start. */
function partOf(tuneId: Id): number {
  let sum = 0;
  for (let at = 0; at < tuneId.length; at++) sum = (31 * sum + tuneId.charCodeAt(at)) | 0;
  return (sum >>> 0) % PARTS;
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
  if (head.print !== printNow() || head.dayStartsAtHour !== dayStartsAtHour) return null;
  const states = unpackedOf(parts);
  if (!states) return null;
  return {
    standings: Standings.fromSnapshot({ ...head, states }, tunes, now),
    tally: new WeekTally(tunes, dayStartsAtHour, parts.flatMap(weeksOf)),
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

function weeksOf({ tuneIds, weekCounts, weeks }: FoldPart): [tuneId: Id, weeks: KeptWeeks][] {
  let at = 0;
  return tuneIds.map((tuneId, place) => [tuneId, weeks.subarray(at, (at += weekCounts[place] ?? 0))]);
}
