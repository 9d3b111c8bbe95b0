import { DAY_MS } from '../time/moment';
import type { PracticeDay } from '../time/practice-day';
import type { SettledTempo } from '../practice/standing';
import type { TuneProgress } from './tune-progress';

/** A settled tempo on a day, with the interval that holds it 80 times in 100. */
export interface TempoPoint extends SettledTempo {
  day: PracticeDay;
}

/** What the chart of one tune draws, and between which days and tempos. Plain data. */
export interface TempoPicture {
  from: PracticeDay;
  to: PracticeDay;
  today: PracticeDay;
  bottom: number;
  top: number;
  goal: number;
  /** Oldest first, one or more. */
  tune: TempoPoint[];
  /** The next slowest links, two at most, each with one point or more. */
  links: { name: string; points: TempoPoint[] }[];
  /** From now (or the newest point) on; empty unless the tune is heading up. */
  forecast: TempoPoint[];
}

/** A few days of practice must not look like months: the chart is never narrower than this. */
const SPAN_MIN = 28;
/** A forecast is drawn this many times as far as the practice that it rests on reaches back, six weeks at least. */
const AHEAD_SHARE = 2.2;
const AHEAD_MIN = 42;
/**
 * Room above the goal and the highest tempo, as shares of them: an interval that is wider than the most is cut off,
 * or one uncertain day would flatten the whole history.
 */
const ROOM_LEAST = 0.06;
const ROOM_ABOVE = 0.18;
/** After a rest of more days than this a forecast begins at what is settled today, not at the newest point. */
const JOINED_DAYS = 14;

/**
 * `null` before the first practice day of the tune. `today`: the practice day it is now; `since`: the first day that is
 * wanted. The newest point is there in any case.
 */
export function tempoPicture(
  progress: TuneProgress,
  today: PracticeDay,
  since: PracticeDay = -Infinity,
): TempoPicture | null {
  const { goal, slowest } = progress;
  const wanted = progress.days.filter(({ day }) => day >= since);
  const tune = wanted.length > 0 ? wanted : progress.days.slice(-1);
  const [first, newest] = [tune[0], tune.at(-1)];
  if (!first || !newest) return null;
  const links = slowest
    .slice(1)
    .map(({ name, points }) => ({ name, points: points.filter(({ day }) => day >= first.day) }))
    .filter(({ points }) => points.length > 0);
  const now = Math.max(today, newest.day);
  const forecast = forecastPoints(progress, first.day, now);
  const tempos = [...tune, ...links.flatMap(({ points }) => points)].map(({ tempo }) => tempo);
  const highs = [...tune, ...forecast].map(({ high }) => high);
  const lows = [...tune, ...forecast].map(({ low }) => low);
  const highest = Math.max(goal, ...tempos);
  const top = Math.max(highest * (1 + ROOM_LEAST), Math.min(highest * (1 + ROOM_ABOVE), Math.max(...highs)));
  const lowest = Math.min(goal, ...tempos, ...lows);
  return {
    ...{ goal, tune, links, forecast, today: now, from: first.day },
    to: Math.max(now, first.day + SPAN_MIN, forecast.at(-1)?.day ?? now),
    top: top + (top - lowest) * 0.03,
    bottom: Math.max(0, lowest - (top - lowest) * 0.1),
  };
}

/** The forecast's points by calendar day, moved on when the first of its dates have passed without practice. */
function forecastPoints(progress: TuneProgress, first: PracticeDay, now: PracticeDay): TempoPoint[] {
  const { forecast, forecastDates, days, settled } = progress;
  const newest = days.at(-1);
  if (forecast.kind !== 'heading up' || !newest) return [];
  const dated = forecast.band.map(({ tempo, low, high }, index) => {
    return { day: Date.parse(forecastDates[index] ?? '') / DAY_MS, tempo, low, high };
  });
  const late = Math.max(0, now + 1 - (dated[0]?.day ?? now + 1));
  const start = now - newest.day > JOINED_DAYS && settled ? { ...settled, day: now } : newest;
  const last = now + Math.max(AHEAD_MIN, AHEAD_SHARE * (now - first));
  const ahead = dated
    .map((point) => ({ ...point, day: point.day + late }))
    .filter(({ day }) => Number.isFinite(day) && day <= last);
  return ahead.length > 0 ? [start, ...ahead] : [];
}
