import type { LinkState, TuneState } from './tune-state';
import { listed } from '../../texts/figures';
import { counted } from '../../texts/number-words';

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
  const time = days < 70 ? counted(Math.round(days / 7), 'week') : counted(Math.round(days / 30.44), 'month');
  return `It is ${time} since you last played. ${fadedWords(states)} Today refreshes what you had, a little slower, and brings nothing new.`;
}

function fadedWords(states: readonly TuneState[]): string {
  const faded = states.filter((state) =>
    linksOf(state).some(({ standing, rust }) => standing.passes > 0 && rust !== 'fresh'),
  );
  if (faded.length === 0) return 'Little has faded.';
  const which =
    faded.length > NAMED_MAX ? numberAtHead(faded.length) : listed(faded.map(({ tune }) => tune.title));
  return faded.length === 1
    ? `${which} has likely faded, as any tune does; it comes back faster than it was learned.`
    : `${which} have likely faded, as all tunes do; they come back faster than they were learned.`;
}

function numberAtHead(count: number): string {
  const words = counted(count, 'tune');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function daysOf(state: TuneState): number[] {
  return linksOf(state)
    .map(({ daysAway }) => daysAway)
    .filter((days) => days !== null);
}

function linksOf({ figures, seams, parts, whole }: TuneState): LinkState[] {
  return [...figures, ...seams, ...parts, whole];
}
