import { say } from '../../texts/tempo-chart';
import { fullDate } from '../time/date-words';
import type { TempoPicture, TempoPoint } from './tempo-picture';

/** The chart of tempos in a sentence, for those who do not see it. */
export function pictureSentence({ tune, goal, links, forecast }: TempoPicture): string {
  const [first, newest] = [tune[0], tune.at(-1)];
  if (!first || !newest) return '';
  const others = links.flatMap(({ name, points }) => {
    const last = points.at(-1);
    return last ? [{ name, tempo: Math.round(last.tempo) }] : [];
  });
  const end = forecast.at(-1);
  return say.picture(
    newest === first ? null : onDay(first),
    onDay(newest),
    Math.round(goal),
    others,
    end ? { low: Math.round(end.low), high: Math.round(end.high), day: fullDate(end.day) } : null,
  );
}

function onDay({ day, tempo }: TempoPoint): { tempo: number; day: string } {
  return { tempo: Math.round(tempo), day: fullDate(day) };
}
