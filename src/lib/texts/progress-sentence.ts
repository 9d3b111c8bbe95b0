import { counted, numberWord } from './number-words';
import { spoken } from './spoken';

function since(gained: number | null): string {
  if (gained === null) return '';
  if (gained === 0) return ', as four weeks before';
  return gained > 0 ? `, up ${gained} in four weeks` : `, down ${-gained} in four weeks`;
}

/** How a tune is coming along, in sentences. Tempos in whole beats a minute, days of practice. */
export const say = spoken('progressSentence', {
  nothing: 'Nothing played yet.',
  atGoal: (tempo: number, goal: number) =>
    `The slowest link is clean at ${tempo}, at or past the goal of ${goal}.`,
  /** `gained`: in four weeks; `null` when it is not known. */
  onTheWay: (tempo: number, goal: number, gained: number | null) =>
    `The slowest link is clean at ${tempo}${since(gained)}; the goal is ${goal}.`,
  wasAtGoal: 'It was at the goal when last played.',
  fewDays: (days: number, needed: number) =>
    `Not enough yet for a forecast: ${counted(days, 'day')} played so far; it needs ${counted(needed, 'day')} on this tune.`,
  fewDaysSinceNew: (days: number, needed: number) =>
    `Not enough yet for a forecast: ${counted(days, 'day')} played since its newest measure or join; it needs ${numberWord(needed)}.`,
  noTrend: 'It has gone up and down too much for a forecast.',
  farAway: (days: number) => `At this rate the goal is more than ${days} practice days away.`,
  levelled: 'It has levelled off for now.',
  levelling: (tempo: number) => `It is levelling off near ${tempo} the way it goes now.`,
  about: (days: number) => `At this rate the goal is about ${counted(days, 'practice day')} away.`,
  between: (days: number, soonest: number, latest: number) =>
    `At this rate the goal is about ${counted(days, 'practice day')} away (${numberWord(soonest)} to ${numberWord(latest)}).`,
  atLeast: (days: number) => `At this rate the goal is at least ${counted(days, 'practice day')} away.`,
});
