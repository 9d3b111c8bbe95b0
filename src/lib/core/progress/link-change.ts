import { say } from '../../texts/link-change';
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
  if (rested >= TWO_WEEKS) return weeksOrMonths(rested, say.restedWeeks, say.restedMonths);
  const before = points.findLast(({ day }) => day <= today - TWO_WEEKS);
  if (!before) return begunWords(today - first.day);
  const gained = Math.round(newest.tempo) - Math.round(before.tempo);
  if (Math.abs(gained) > LEVEL_WITHIN) return say.gained(gained);
  const moved = points.findLastIndex(({ tempo }) => Math.abs(tempo - newest.tempo) > LEVEL_WITHIN + 0.5);
  const since = points[moved + 1] ?? newest;
  return weeksOrMonths(Math.max(TWO_WEEKS, today - since.day), say.levelWeeks, say.levelMonths);
}

function weeksOrMonths(
  days: number,
  inWeeks: (count: number) => string,
  inMonths: (count: number) => string,
): string {
  return days < 70 ? inWeeks(Math.floor(days / 7)) : inMonths(Math.round(days / 30.44));
}

function begunWords(days: number): string {
  if (days <= 0) return say.begunToday;
  return days === 1 ? say.begunYesterday : say.begun(days);
}
