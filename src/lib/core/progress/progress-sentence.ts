import type { PracticeDay } from '../time/practice-day';
import { say } from '../../texts/progress-sentence';
import type { SettledTempo } from '../practice/standing';
import { FORECAST_DAYS, type Forecast } from './forecast';

export interface ProgressFacts {
  goal: number;
  settled: SettledTempo | null;
  days: readonly { day: PracticeDay; tempo: number }[];
  /** Days since the newest link of the tune was first played, that day included. */
  steadyDays: number;
  forecast: Forecast;
}

/** How a tune is coming along, in one or two sentences with figures; no date is promised. */
export function progressSentence({ goal, settled, days, steadyDays, forecast }: ProgressFacts): string {
  if (!settled) return say.nothing;
  const [tempo, goalTempo] = [Math.round(settled.tempo), Math.round(goal)];
  if (settled.tempo >= goal) return say.atGoal(tempo, goalTempo);
  const ahead = aheadWords(forecast, days.length, steadyDays, settled.tempo, goal);
  return `${say.onTheWay(tempo, goalTempo, gainedLately(days))} ${ahead}`;
}

const MONTH_DAYS = 28;

function gainedLately(days: ProgressFacts['days']): number | null {
  const newest = days.at(-1);
  const before = newest && days.findLast(({ day }) => day <= newest.day - MONTH_DAYS);
  return newest && before ? Math.round(newest.tempo) - Math.round(before.tempo) : null;
}

function aheadWords(
  forecast: Forecast,
  days: number,
  steadyDays: number,
  settledTempo: number,
  goal: number,
): string {
  switch (forecast.kind) {
    case 'at goal':
      return say.wasAtGoal;
    case 'not enough yet':
      return days < forecast.needed
        ? say.fewDays(days, forecast.needed)
        : say.fewDaysSinceNew(steadyDays, forecast.needed);
    case 'no trend':
      return say.noTrend;
    case 'heading up':
      return toGoalWords(forecast, settledTempo, goal);
  }
}

function toGoalWords(
  { toGoal, plateau }: Extract<Forecast, { kind: 'heading up' }>,
  settledTempo: number,
  goal: number,
): string {
  const { likely, soonest, latest } = toGoal;
  if (likely === null && plateau >= goal) return say.farAway(FORECAST_DAYS);
  if (likely === null && plateau < settledTempo * 1.02) return say.levelled;
  if (likely === null) return say.levelling(Math.round(plateau));
  if (soonest === null || (soonest === likely && latest === likely)) return say.about(likely);
  return latest === null ? say.atLeast(soonest) : say.between(likely, soonest, latest);
}
