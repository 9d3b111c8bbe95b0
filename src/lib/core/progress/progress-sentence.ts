import type { PracticeDay } from '../time/practice-day';
import { counted, numberWord } from '../../texts/number-words';
import { tempoWord } from '../plan/words';
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
  if (!settled) return 'Nothing played yet.';
  const now = `The slowest link is clean at ${tempoWord(settled.tempo)}`;
  if (settled.tempo >= goal) return `${now}, at or past the goal of ${tempoWord(goal)}.`;
  return `${now}${sinceWords(days)}; the goal is ${tempoWord(goal)}. ${aheadWords(forecast, days.length, steadyDays, settled.tempo, goal)}`;
}

const MONTH_DAYS = 28;

function sinceWords(days: ProgressFacts['days']): string {
  const newest = days.at(-1);
  const before = newest && days.findLast(({ day }) => day <= newest.day - MONTH_DAYS);
  if (!newest || !before) return '';
  const gained = Math.round(newest.tempo) - Math.round(before.tempo);
  if (gained === 0) return ', as four weeks before';
  return gained > 0 ? `, up ${gained} in four weeks` : `, down ${-gained} in four weeks`;
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
      return 'It was at the goal when last played.';
    case 'not enough yet':
      return days < forecast.needed
        ? `Not enough yet for a forecast: ${counted(days, 'day')} played so far; it needs ${counted(forecast.needed, 'day')} on this tune.`
        : `Not enough yet for a forecast: ${counted(steadyDays, 'day')} played since its newest measure or join; it needs ${numberWord(forecast.needed)}.`;
    case 'no trend':
      return 'It has gone up and down too much for a forecast.';
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
  if (likely === null && plateau >= goal) {
    return `At this rate the goal is more than ${FORECAST_DAYS} practice days away.`;
  }
  if (likely === null && plateau < settledTempo * 1.02) return 'It has levelled off for now.';
  if (likely === null) return `It is levelling off near ${tempoWord(plateau)} the way it goes now.`;
  const about = `At this rate the goal is about ${counted(likely, 'practice day')} away`;
  if (soonest === null || (soonest === likely && latest === likely)) return `${about}.`;
  if (latest === null) return `At this rate the goal is at least ${counted(soonest, 'practice day')} away.`;
  return `${about} (${numberWord(soonest)} to ${numberWord(latest)}).`;
}
