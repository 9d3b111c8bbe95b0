import { tempoWord } from '../plan/words';
import { fullDate } from '../time/date-words';
import type { TempoPicture } from './tempo-picture';

/** The chart of tempos in a sentence, for those who do not see it. */
export function pictureSentence({ tune, goal, links, forecast }: TempoPicture): string {
  const [first, newest] = [tune[0], tune.at(-1)];
  if (!first || !newest) return '';
  const said = ({ day, tempo }: { day: number; tempo: number }) => `${tempoWord(tempo)} on ${fullDate(day)}`;
  const course = newest === first ? said(newest) : `from ${said(first)} to ${said(newest)}`;
  const others = links.map(({ name, points }) => {
    const last = points.at(-1);
    return last ? `; ${name}, at ${tempoWord(last.tempo)}` : '';
  });
  const end = forecast.at(-1);
  const ahead = end
    ? ` The forecast reaches between ${tempoWord(end.low)} and ${tempoWord(end.high)} by ${fullDate(end.day)}.`
    : '';
  return `Settled tempo, ${course}; goal ${tempoWord(goal)}${others.join('')}.${ahead}`;
}
