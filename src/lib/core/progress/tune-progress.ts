import { say } from '../../texts/passage';
import { practiceDayDate, type PracticeDay } from '../time/practice-day';
import { passageName } from '../tune/passage-name';
import { passageFromKey, type PassageKey } from '../tune/passage';
import { figurePassages, seamPassages } from '../tune/places';
import type { Id, Tune } from '../tune/tune';
import { goalOf } from '../plan/tune-map';
import type { SettledTempo } from '../practice/standing';
import type { Standings } from '../practice/standings';
import { forecastOf, type Forecast } from './forecast';
import { progressSentence } from './progress-sentence';
import type { Week } from './weeks';

/** Settled tempo at the end of a practice day, beats per minute, with the interval that holds it 80 times in 100. */
export interface DayPoint extends SettledTempo {
  day: PracticeDay;
  /** `YYYY-MM-DD`. */
  date: string;
}

export interface LinkSeries {
  key: PassageKey;
  /** `Measure 6, part B`. */
  name: string;
  points: DayPoint[];
}

export interface TuneProgress {
  tuneId: Id;
  title: string;
  goal: number;
  /** The tune's tempo now: that of its slowest link; `null` when nothing has been played. */
  settled: SettledTempo | null;
  /** The tune's slowest played link by practice day, oldest first. */
  days: (DayPoint & { key: PassageKey; name: string })[];
  /** The slowest links of today, the slowest first, three at most. */
  slowest: LinkSeries[];
  forecast: Forecast;
  /** The forecast's points in practice days, laid on the calendar at the pace of the newest ten practice days. */
  forecastDates: string[];
  weeks: Week[];
  sentence: string;
}

const SLOWEST_SHOWN = 3;
const PACE_DAYS = 10;

/** What the charts of one tune show. `weeks`: of that tune alone (`WeekTally`). */
export function tuneProgress(tune: Tune, layerId: Id, standings: Standings, weeks: Week[]): TuneProgress {
  const goal = goalOf(tune);
  const { settled, slowest } = standings.tuneSettled(tune, layerId) ?? { settled: null, slowest: [] };
  const days = tuneSeries(tune, layerId, standings);
  const steady = days.filter(({ day }) => day >= lastNewDay(tune, layerId, standings));
  const forecast = forecastOf(steady, goal);
  return {
    ...{ tuneId: tune.id, title: tune.title, goal, settled, days, forecast, weeks },
    slowest: slowest.slice(0, SLOWEST_SHOWN).map(({ key }) => linkSeries(tune, key, standings)),
    forecastDates: forecast.kind === 'heading up' ? datesAhead(days, forecast.band.length) : [],
    sentence: progressSentence({ goal, settled, days, steadyDays: steady.length, forecast }),
  };
}

/** The tune's slowest played link at the end of each practice day on which the tune was played. */
export function tuneSeries(tune: Tune, layerId: Id, standings: Standings): TuneProgress['days'] {
  return standings.tuneHistory(tune, layerId).map(({ day, tempo, low, high, key }) => ({
    ...{ day, date: practiceDayDate(day), tempo, low, high, key },
    name: nameOf(tune, key),
  }));
}

/** One passage's settled tempo by practice day. */
export function linkSeries(tune: Tune, key: PassageKey, standings: Standings): LinkSeries {
  const points = standings
    .historyOf(key)
    .map(({ day, tempo, low, high }) => ({ day, date: practiceDayDate(day), tempo, low, high }));
  return { key, name: nameOf(tune, key), points };
}

function nameOf(tune: Tune, key: PassageKey): string {
  const passage = passageFromKey(key);
  return passage ? passageName(tune, passage) : say.gone;
}

/**
 * The day on which the newest link was first played: each new link pulls the slowest down, so only the days from
 * then on show growth.
 */
function lastNewDay(tune: Tune, layerId: Id, standings: Standings): PracticeDay {
  const links = [...figurePassages(tune, layerId), ...seamPassages(tune, layerId)];
  const firsts = links.map((link) => standings.historyOf(standings.of(link).key)[0]?.day ?? -Infinity);
  return firsts.reduce((latest, day) => Math.max(latest, day), -Infinity);
}

function datesAhead(days: readonly DayPoint[], count: number): string[] {
  const newest = days.at(-1);
  if (!newest) return [];
  const recent = days.slice(-PACE_DAYS);
  const first = recent[0] ?? newest;
  const pace = recent.length > 1 ? Math.max(1, (newest.day - first.day) / (recent.length - 1)) : 1;
  return Array.from({ length: count }, (_, index) =>
    practiceDayDate(newest.day + Math.round(pace * (index + 1))),
  );
}
