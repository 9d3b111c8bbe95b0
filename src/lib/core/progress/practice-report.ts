import { weekOf, type PracticeDay } from '../time/practice-day';
import { newestWeeks } from './newest-weeks';
import type { TuneProgress } from './tune-progress';
import type { TuneSummary } from './tune-summary';
import type { Week } from './weeks';

/** What a learner shows a teacher: some weeks of practice, on a page. Notes and single passes are not in it. */
export interface PracticeReport {
  /** First and last day that it tells of. */
  from: PracticeDay;
  to: PracticeDay;
  /** Oldest first; weeks before the first pass left out. */
  weeks: Week[];
  minutes: number;
  passes: number;
  /** Those played in these weeks, the most practised first. */
  tunes: ReportTune[];
}

export interface ReportTune {
  tuneId: string;
  title: string;
  tuning: string;
  goal: number;
  /** Settled tempo of the slowest link: as these weeks began, and now; `null` while nothing had been played. */
  before: number | null;
  now: number | null;
  /** Where it stands, in a few words. */
  state: string;
  slowest: string | null;
  minutes: number;
  passes: number;
}

/** The Monday on which the last `count` weeks, this one included, began. */
export function reportBegins(today: PracticeDay, count: number): PracticeDay {
  return weekOf(today) - 7 * (count - 1);
}

/**
 * @param tunes each tune with its progress; those not played in these weeks are left out
 * @param weeks of all practice, as `WeekTally` gives them
 */
export function practiceReport(
  tunes: readonly { summary: TuneSummary; progress: TuneProgress }[],
  weeks: readonly Week[],
  today: PracticeDay,
  count: number,
): PracticeReport {
  const from = reportBegins(today, count);
  const shown = newestWeeks(weeks, today, count).filter(({ monday }) => monday >= from);
  return {
    ...{ from, to: today, weeks: shown, ...sumOf(shown) },
    tunes: tunes
      .map(({ summary, progress }) => reportTune(summary, progress, from))
      .filter(({ passes }) => passes > 0)
      .sort((a, b) => b.minutes - a.minutes || a.title.localeCompare(b.title)),
  };
}

function reportTune(summary: TuneSummary, progress: TuneProgress, from: PracticeDay): ReportTune {
  const { tuneId, title, tuning, state } = summary;
  return {
    ...{ tuneId, title, tuning, state, goal: progress.goal },
    before: progress.days.findLast(({ day }) => day < from)?.tempo ?? null,
    now: progress.settled?.tempo ?? null,
    slowest: progress.slowest[0]?.name ?? null,
    ...sumOf(progress.weeks.filter(({ monday }) => monday >= from)),
  };
}

function sumOf(weeks: readonly Week[]): { minutes: number; passes: number } {
  return {
    minutes: weeks.reduce((sum, week) => sum + week.minutes, 0),
    passes: weeks.reduce((sum, week) => sum + week.passes, 0),
  };
}
