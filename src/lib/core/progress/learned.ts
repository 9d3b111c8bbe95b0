import { RUST } from '../practice/standing';
import { isAtGoal, type TuneSummary } from './tune-summary';
import { counted, numberWord } from '../../texts/number-words';

/** What the repertoire holds: figures settled, and the titles of the tunes that are at their goal. */
export interface Learned {
  /** `31 of 54 measures are settled, in four of six tunes.` */
  sentence: string;
  atGoal: string[];
}

/** `null` when nothing is settled yet. Tunes put away count neither way. */
export function learned(summaries: readonly TuneSummary[]): Learned | null {
  const tunes = summaries.filter(({ archived }) => !archived);
  const sum = (count: (tune: TuneSummary) => number) => tunes.reduce((total, tune) => total + count(tune), 0);
  const settled = sum(({ settledFigures }) => settledFigures);
  if (settled === 0) return null;
  const figures = sum((tune) => tune.figures);
  const begun = tunes.filter(({ settledFigures }) => settledFigures > 0).length;
  const where = begun === tunes.length ? '' : `${numberWord(begun)} of `;
  const atGoal = tunes.filter(isAtGoal);
  return {
    sentence: `${capital(numberWord(settled))} of ${counted(figures, 'measure')} ${settled === 1 ? 'is' : 'are'} settled, in ${where}${counted(tunes.length, 'tune')}.`,
    atGoal: atGoal.map(({ title }) => title),
  };
}

/** The repertoire's rusty tunes, the most faded first, the longest unplayed first among equals. */
export function goingRusty(summaries: readonly TuneSummary[]): TuneSummary[] {
  return summaries
    .filter(({ rust, archived }) => rust !== 'fresh' && !archived)
    .sort(
      (a, b) =>
        RUST.indexOf(b.rust) - RUST.indexOf(a.rust) || (a.lastPlayed?.at ?? 0) - (b.lastPlayed?.at ?? 0),
    );
}

/** The tune of the repertoire that was played last; the first one when none was, `null` when there is none. */
export function playedLast(summaries: readonly TuneSummary[]): TuneSummary | null {
  const tunes = summaries.filter(({ archived }) => !archived);
  return tunes.reduce<TuneSummary | null>((latest, tune) => {
    return latest && (latest.lastPlayed?.at ?? 0) >= (tune.lastPlayed?.at ?? 0) ? latest : tune;
  }, null);
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
