import { sameTuning, tuningName } from '../tune/tuning';
import type { Tune } from '../tune/tune';
import { isAtGoal, type TuneSummary } from './tune-summary';

/** Where a tune stands, as a player would ask for it. A tune at goal that has faded is rusty. */
export const TUNE_STANDS = ['at goal', 'growing', 'rusty', 'not begun'] as const;
export type TuneStand = (typeof TUNE_STANDS)[number];

/** What is looked for in the repertoire; `null` and an empty text leave a side open. */
export interface Wanted {
  /** Words of the title, in any order, in capitals or not, with or without accents. */
  words: string;
  /** Name of a tuning. */
  tuning: string | null;
  key: string | null;
  stand: TuneStand | null;
}

export const ANY_TUNE: Wanted = { words: '', tuning: null, key: null, stand: null };

/** `heading`: the tuning that the tunes are in; `null` when they are not put together by tuning. */
export interface TuneGroup {
  heading: string | null;
  tunes: Tune[];
}

export function standOf(summary: TuneSummary): TuneStand {
  if (!summary.settled) return 'not begun';
  if (summary.rust !== 'fresh') return 'rusty';
  return isAtGoal(summary) ? 'at goal' : 'growing';
}

/** The tunes looked for, by title. While a tune's summary is not known it stands nowhere. */
export function findTunes(
  tunes: readonly Tune[],
  summaries: ReadonlyMap<string, TuneSummary>,
  wanted: Wanted,
): Tune[] {
  const words = plain(wanted.words).split(/\s+/).filter(Boolean);
  return tunes
    .filter((tune) => {
      const title = plain(tune.title);
      const summary = summaries.get(tune.id);
      return (
        words.every((word) => title.includes(word)) &&
        (wanted.tuning === null || tuningName(tune.tuning) === wanted.tuning) &&
        (wanted.key === null || tune.key === wanted.key) &&
        (wanted.stand === null || (summary !== undefined && standOf(summary) === wanted.stand))
      );
    })
    .sort((a, b) => a.title.localeCompare(b.title));
}

/** The same tunes by tuning, so that a jam retunes seldom: the tuning of most tunes first. */
export function byTuning(tunes: readonly Tune[]): TuneGroup[] {
  const groups: Tune[][] = [];
  for (const tune of tunes) {
    const group = groups.find(([first]) => first && sameTuning(first.tuning, tune.tuning));
    if (group) group.push(tune);
    else groups.push([tune]);
  }
  return groups
    .map((group) => ({ heading: group[0] ? tuningName(group[0].tuning) : null, tunes: group }))
    .sort((a, b) => b.tunes.length - a.tunes.length || (a.heading ?? '').localeCompare(b.heading ?? ''));
}

/** Small letters without accents: Unicode's compatibility decomposition without its marks. */
const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
