import { FIT_POINTS_MIN, fitGrowth, growthAt, type Growth, type GrowthPoint } from './growth';

/** Practice days ahead that a forecast looks, at most. */
export const FORECAST_DAYS = 60;
/** Below this share of explained variance the points say nothing about where they head. */
const EXPLAINED_MIN = 0.5;

export interface ForecastPoint {
  /** Practice days from the newest point: 1, 2, ... */
  ahead: number;
  tempo: number;
  low: number;
  high: number;
}

/** Practice days, not calendar days: a forecast promises no date. `null`: not within FORECAST_DAYS. */
export interface DaysToGoal {
  likely: number | null;
  soonest: number | null;
  latest: number | null;
}

export type Forecast =
  | { kind: 'not enough yet'; days: number; needed: number }
  | { kind: 'at goal' }
  | { kind: 'no trend'; days: number }
  | { kind: 'heading up'; toGoal: DaysToGoal; plateau: number; band: ForecastPoint[] };

/** Where a tempo heads, with a band; an honest `not enough yet` or `no trend` where the days played cannot carry one. */
export function forecastOf(points: readonly GrowthPoint[], goal: number): Forecast {
  const newest = points.at(-1);
  if (newest && newest.tempo >= goal) return { kind: 'at goal' };
  const fit = fitGrowth(points);
  if (!fit) return { kind: 'not enough yet', days: points.length, needed: FIT_POINTS_MIN };
  const rising = growthAt(fit.growth, points.length) > growthAt(fit.growth, 0);
  if (fit.explained < EXPLAINED_MIN || !rising) return { kind: 'no trend', days: points.length };
  const from = points.length - 1;
  const days = [fit.growth, ...fit.plausible].map((growth) => daysTo(growth, goal, from));
  const reached = days.filter((day) => day !== null);
  const toGoal = {
    likely: days[0] ?? null,
    soonest: reached.length > 0 ? Math.min(...reached) : null,
    latest: reached.length === days.length ? Math.max(...reached) : null,
  };
  const ahead = Math.min(FORECAST_DAYS, Math.max(5, toGoal.likely ?? Math.ceil(points.length / 2)));
  return { kind: 'heading up', toGoal, plateau: fit.growth.plateau, band: bandOf(fit, from, ahead, newest) };
}

function daysTo(growth: Growth, goal: number, from: number): number | null {
  for (let ahead = 1; ahead <= FORECAST_DAYS; ahead++) {
    if (growthAt(growth, from + ahead) >= goal) return ahead;
  }
  return null;
}

/** The span of all plausible curves, and at least the uncertainty that the newest point itself has. */
function bandOf(
  { growth, plausible }: { growth: Growth; plausible: readonly Growth[] },
  from: number,
  days: number,
  newest: GrowthPoint | undefined,
): ForecastPoint[] {
  const [down, up] = newest ? [newest.tempo - newest.low, newest.high - newest.tempo] : [0, 0];
  return Array.from({ length: days }, (_, index) => {
    const ahead = index + 1;
    const tempos = [growth, ...plausible].map((curve) => growthAt(curve, from + ahead));
    const tempo = growthAt(growth, from + ahead);
    return { ahead, tempo, low: Math.min(...tempos) - down, high: Math.max(...tempos) + up };
  });
}
