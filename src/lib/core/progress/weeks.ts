import { practiceDay, practiceDayDate, weekOf, type PracticeDay } from '../time/practice-day';
import { passageKey } from '../tune/passage';
import { passageBeats } from '../tune/places';
import type { Id, Tune } from '../tune/tune';
import type { Pass, SealedSitting } from '../practice/records';
import { countedPasses } from '../practice/settled-log';

/** A week of practice, from its Monday. */
export interface Week {
  monday: PracticeDay;
  /** `YYYY-MM-DD` of the Monday. */
  date: string;
  /** Time actually spent: see `practiceByWeek`. */
  minutes: number;
  passes: number;
  clean: number;
  /** 0 to 1; `null` in a week without a pass. */
  cleanShare: number | null;
}

/** Between two passes of a drill longer than this, the banjo was put down. */
const GAP_MAX_SEC = 20;

/**
 * Practice week by week, oldest first, weeks without any included; a record that comes twice counts once. Minutes are the passes' own length (beats * 60 /
 * tempo) and the gaps between passes of one drill, each counted up to 20 s: the pauses for tea are not practice.
 * A pass on a passage that is no longer in its tune counts by its gaps alone. `tuneId`: that tune only.
 */
export function practiceByWeek(
  tunes: readonly Tune[],
  sittings: readonly Pick<SealedSitting, 'drills' | 'log'>[],
  dayStartsAtHour: number,
  tuneId: Id | null = null,
): Week[] {
  const byId = new Map(tunes.map((tune) => [tune.id, tune]));
  const beats = new Map<string, number>();
  const weeks = new Map<PracticeDay, { seconds: number; passes: number; clean: number }>();
  const passages = new Map(sittings.flatMap(({ drills }) => drills.map(({ id, passage }) => [id, passage])));
  const newest = new Map<Id, Pass>();
  for (const pass of countedPasses(sittings.flatMap(({ log }) => log))) {
    const passage = passages.get(pass.drillId);
    if (!passage || (tuneId !== null && passage.tuneId !== tuneId)) continue;
    const key = passageKey(passage);
    const tune = byId.get(passage.tuneId);
    if (!beats.has(key)) beats.set(key, tune ? passageBeats(tune, passage) : 0);
    const monday = weekOf(practiceDay(pass, dayStartsAtHour));
    const week = weeks.get(monday) ?? { seconds: 0, passes: 0, clean: 0 };
    week.seconds += secondsOf(pass, beats.get(key) ?? 0, newest.get(pass.drillId));
    week.passes += 1;
    week.clean += Number(pass.outcome === 'clean');
    weeks.set(monday, week);
    newest.set(pass.drillId, pass);
  }
  return withEmptyWeeks(weeks);
}

/** A pass is recorded when it is marked, so that the time since the one before holds its playing and the gap. */
function secondsOf(pass: Pass, beats: number, before: Pass | undefined): number {
  const playing = pass.tempo > 0 ? (beats * 60) / pass.tempo : 0;
  const gap = before ? (pass.at - before.at) / 1000 - playing : 0;
  return playing + Math.min(GAP_MAX_SEC, Math.max(0, gap));
}

/** Ten years of weeks at most, so that a clock set wrong cannot draw a chart from 1970. */
const WEEKS_MAX = 522;

function withEmptyWeeks(
  weeks: ReadonlyMap<PracticeDay, { seconds: number; passes: number; clean: number }>,
): Week[] {
  const mondays = [...weeks.keys()].sort((a, b) => a - b);
  const last = mondays.at(-1);
  if (last === undefined) return [];
  const first = Math.max(mondays[0] ?? last, last - 7 * (WEEKS_MAX - 1));
  return Array.from({ length: (last - first) / 7 + 1 }, (_, index) => {
    const monday = first + 7 * index;
    const { seconds, passes, clean } = weeks.get(monday) ?? { seconds: 0, passes: 0, clean: 0 };
    const cleanShare = passes > 0 ? clean / passes : null;
    return { monday, date: practiceDayDate(monday), minutes: seconds / 60, passes, clean, cleanShare };
  });
}
