import { counted } from '../../texts/number-words';
import type { PracticeDay } from '../time/practice-day';

const TWO_WEEKS = 14;
/** Settled tempos that differ by no more than this are level: a beat a minute is within any interval. */
const LEVEL_WITHIN = 1;

/**
 * What became of a link lately, in a few words: `+6 in two weeks`, `level for five weeks`, `begun three days ago`,
 * `not played for six weeks`. `points`: its settled tempo by practice day, oldest first; '' without one.
 */
export function changeWords(
  points: readonly { day: PracticeDay; tempo: number }[],
  today: PracticeDay,
): string {
  const [first, newest] = [points[0], points.at(-1)];
  if (!first || !newest) return '';
  const rested = today - newest.day;
  if (rested >= TWO_WEEKS) return `not played for ${weeks(rested)}`;
  const before = points.findLast(({ day }) => day <= today - TWO_WEEKS);
  if (!before) return begunWords(today - first.day);
  const gained = Math.round(newest.tempo) - Math.round(before.tempo);
  if (Math.abs(gained) > LEVEL_WITHIN) return `${gained > 0 ? '+' : '−'}${Math.abs(gained)} in two weeks`;
  const moved = points.findLastIndex(({ tempo }) => Math.abs(tempo - newest.tempo) > LEVEL_WITHIN + 0.5);
  const since = points[moved + 1] ?? newest;
  return `level for ${weeks(Math.max(TWO_WEEKS, today - since.day))}`;
}

function weeks(days: number): string {
  return days < 70 ? counted(Math.floor(days / 7), 'week') : counted(Math.round(days / 30.44), 'month');
}

function begunWords(days: number): string {
  if (days <= 0) return 'begun today';
  return days === 1 ? 'begun yesterday' : `begun ${counted(days, 'day')} ago`;
}
