import type { LinkState, TuneState } from './tune-state';
import { say } from '../../texts/plan';

/** After two weeks without playing, a plan refreshes before it pushes. A rule of thumb of ours. */
const AWAY_DAYS = 14;
const NAMED_MAX = 3;

/** Nothing had been played for two weeks when this day began. */
export function isComingBack(states: readonly TuneState[]): boolean {
  const before = states.flatMap(daysOf).filter((days) => days > 0);
  return before.length > 0 && Math.min(...before) >= AWAY_DAYS;
}

/** What a learner who comes back should know; `null` once something was played, or when it has not been long. */
export function welcomeBack(states: readonly TuneState[]): string | null {
  const idle = states.map(({ daysIdle }) => daysIdle).filter((days) => days !== null);
  if (idle.length === 0) return null;
  const days = Math.min(...idle);
  if (days < AWAY_DAYS) return null;
  const away = days < 70 ? say.awayWeeks(Math.round(days / 7)) : say.awayMonths(Math.round(days / 30.44));
  return [away, fadedSentence(states), say.refreshes].join(' ');
}

function fadedSentence(states: readonly TuneState[]): string {
  const faded = states.filter((state) =>
    linksOf(state).some(({ standing, rust }) => standing.passes > 0 && rust !== 'fresh'),
  );
  if (faded.length === 0) return say.littleFaded;
  if (faded.length > NAMED_MAX) return say.manyFaded(faded.length);
  return say.faded(faded.map(({ tune }) => tune.title));
}

function daysOf(state: TuneState): number[] {
  return linksOf(state)
    .map(({ daysAway }) => daysAway)
    .filter((days) => days !== null);
}

function linksOf({ figures, seams, parts, whole }: TuneState): LinkState[] {
  return [...figures, ...seams, ...parts, whole];
}
