import { newFigures } from '../plan/tune-state';
import { goalOf, layerMaps, type LayerMap } from '../plan/tune-map';
import { recallOn, tempoOn, type PassagePast } from '../practice/passage-past';
import type { Standings } from '../practice/standings';
import { calendarDate } from '../time/date-words';
import { DAY_MS } from '../time/moment';
import type { PracticeDay } from '../time/practice-day';
import type { PassageKey } from '../tune/passage';
import type { Tune } from '../tune/tune';
import type { TuneStand } from './repertoire';

/** How many tunes stood where at the end of a month; of the month that runs, as they stand today. */
export interface RepertoireMonth {
  /** The last day of the month, or today. */
  day: PracticeDay;
  atGoal: number;
  growing: number;
  rusty: number;
}

/** The last days of the newest `count` months, oldest first, and today for the last. */
export function monthEnds(today: PracticeDay, count: number): PracticeDay[] {
  const ends = [today];
  let { year, month } = calendarDate(today);
  while (ends.length < count) {
    const end = Date.UTC(year, month, 1) / DAY_MS - 1;
    ends.unshift(end);
    ({ year, month } = calendarDate(end));
  }
  return ends;
}

/** A tune's passages on each of some days. */
type Pasts = (key: PassageKey) => readonly (PassagePast | null)[] | null;

/**
 * The newest `count` months, oldest first, from the one in which the first tune was begun; none before that. Today is exact, and
 * so is a tune at the end of any month since which it has not been played. Before that it is told by what the fold keeps: tempos
 * exactly, rust nearly (`passagePast`). The tunes are those of the book today, in their shape and with their goal of today; those
 * put away since are in no month.
 */
export function repertoireMonths(
  tunes: readonly Tune[],
  standings: Standings,
  count: number,
): RepertoireMonth[] {
  const kept = tunes.filter(({ archived, deletedAt }) => !archived && deletedAt === null);
  const ends = monthEnds(standings.today, count);
  const months = ends.map((day): RepertoireMonth => ({ day, atGoal: 0, growing: 0, rusty: 0 }));
  for (const tune of kept) {
    for (const [at, stand] of standsOf(tune, standings, ends).entries()) {
      const month = months[at];
      if (!month) continue;
      if (stand === 'at goal') month.atGoal += 1;
      else if (stand !== 'not begun') month[stand] += 1;
    }
  }
  const begun = months.findIndex(({ atGoal, growing, rusty }) => atGoal + growing + rusty > 0);
  return begun < 0 ? [] : months.slice(begun);
}

/** Where a tune stood at the end of each day: the rules of `standOf`, on days gone by. */
function standsOf(tune: Tune, standings: Standings, days: readonly PracticeDay[]): TuneStand[] {
  const known = new Map<PassageKey, readonly (PassagePast | null)[] | null>();
  const pasts: Pasts = (key) => {
    let past = known.get(key);
    if (past === undefined) known.set(key, (past = standings.pastOf(key, days)));
    return past;
  };
  const maps = layerMaps(tune);
  return days.map((day, at) => {
    const past: PastOf = (key) => pasts(key)?.[at] ?? null;
    const map = mapInHand(maps, past);
    return map ? standIn(map, goalOf(tune), past, day) : 'not begun';
  });
}

type PastOf = (key: PassageKey) => PassagePast | null;

function mapInHand(maps: readonly LayerMap[], past: PastOf): LayerMap | undefined {
  const deepest = maps.findLastIndex((map, depth) => {
    const below = maps[depth - 1];
    return below && newFigures(below, map).some(({ key }) => past(key) !== null);
  });
  return maps[Math.max(0, deepest)];
}

function standIn(map: LayerMap, goal: number, past: PastOf, day: PracticeDay): TuneStand {
  const figures = map.figures.map(({ key }) => past(key));
  const seams = map.seams.map(({ key }) => past(key));
  if (figures.every((figure) => figure === null)) return 'not begun';
  if (isRusty(map, figures, seams, past, day)) return 'rusty';
  const reachesGoal = (link: PassagePast): boolean => tempoOn(link, day) >= goal;
  // figures at the goal on two days are settled, so that every seam is open; one that was not played holds nothing back
  const isAtGoal =
    figures.every((figure) => figure !== null && figure.days >= 2 && reachesGoal(figure)) &&
    seams.every((seam) => seam === null || reachesGoal(seam));
  return isAtGoal ? 'at goal' : 'growing';
}

function isRusty(
  map: LayerMap,
  figures: readonly (PassagePast | null)[],
  seams: readonly (PassagePast | null)[],
  past: PastOf,
  day: PracticeDay,
): boolean {
  const whole = past(map.whole.key);
  const parts = map.parts.map((part) => ({ ...part, past: past(part.key) }));
  const all = [...figures, ...seams, ...parts.map((part) => part.past), whole];
  const last = Math.max(...all.map((one) => one?.played ?? -Infinity));
  if (whole?.played === last && day > whole.due) return true;
  const links = [
    ...figures.map((link, at) => ({ link, around: parts.filter((part) => part.figures.includes(at)) })),
    ...seams.map((link, at) => ({ link, around: parts.filter((part) => part.seams.includes(at)) })),
  ].flatMap(({ link, around }) =>
    link ? [keptAlive(link, [...around.map((part) => part.past), whole], day)] : [],
  );
  return links.filter(({ due }) => day > due).length * 4 >= Math.max(1, links.length);
}

/** Which past a link has faded by: what it is part of keeps it too, when that was played since. */
function keptAlive(
  inner: PassagePast,
  around: readonly (PassagePast | null)[],
  day: PracticeDay,
): PassagePast {
  let kept = inner;
  let { played } = inner;
  for (const outer of around) {
    if (!outer || outer.played <= played) continue;
    played = outer.played;
    if (recallOn(outer, day) > recallOn(kept, day)) kept = outer;
  }
  return kept;
}
