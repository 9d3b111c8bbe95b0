import { practiceDay, practiceDayDate, weekOf, type PracticeDay } from '../time/practice-day';
import { soundMoment, type Moment } from '../time/moment';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import { passageBeats } from '../tune/places';
import type { Id, Tune } from '../tune/tune';
import type { Drill, Pass, SealedSitting } from '../practice/records';
import { countedPasses } from '../practice/settled-log';

/** A week of practice, from its Monday. */
export interface Week {
  monday: PracticeDay;
  /** `YYYY-MM-DD` of the Monday. */
  date: string;
  /** Time actually spent: see `WeekTally`. */
  minutes: number;
  passes: number;
  clean: number;
  /** 0 to 1; `null` in a week without a pass. */
  cleanShare: number | null;
}

/** Between two passes of a drill longer than this, the banjo was put down. */
const GAP_MAX_SEC = 20;

/** What one week of one tune adds up to. */
interface WeekSum {
  seconds: number;
  passes: number;
  clean: number;
}

/** A tune's part of a tally as plain data: for each week its Monday, seconds, passes, clean passes. */
export type KeptWeeks = Float64Array;

/**
 * Practice by tune and week, added up sitting by sitting. Minutes are the passes' own length (beats * 60 /
 * tempo) and the gaps between passes of one drill, each counted up to 20 s: the pauses for tea are not practice.
 * A pass on a passage that is no longer in its tune counts by its gaps alone; one from a clock that ran ahead counts as made now.
 */
export class WeekTally {
  readonly #tunes: ReadonlyMap<Id, Tune>;
  readonly #startsAtHour: number;
  readonly #beats = new Map<PassageKey, number>();
  readonly #weeks = new Map<Id, Map<PracticeDay, WeekSum>>();

  constructor(
    tunes: readonly Tune[],
    dayStartsAtHour: number,
    kept: Iterable<readonly [tuneId: Id, weeks: KeptWeeks]> = [],
  ) {
    this.#tunes = new Map(tunes.map((tune) => [tune.id, tune]));
    this.#startsAtHour = dayStartsAtHour;
    for (const [tuneId, weeks] of kept) {
      const byMonday = new Map<PracticeDay, WeekSum>();
      for (let at = 0; at < weeks.length; at += 4) {
        const [monday, seconds, passes, clean] = weeks.subarray(at, at + 4);
        if (monday === undefined || seconds === undefined || passes === undefined) continue;
        byMonday.set(monday, { seconds, passes, clean: clean ?? 0 });
      }
      this.#weeks.set(tuneId, byMonday);
    }
  }

  /** `sittings`: none that was added before, for a record that comes twice in one call alone counts once. */
  add(sittings: readonly Pick<SealedSitting, 'drills' | 'log'>[], now: Moment): void {
    const drills = sittings.flatMap((sitting) => sitting.drills);
    this.addCounted(drills, countedPasses(sittings.flatMap(({ log }) => log)), now);
  }

  /** As `add`, for passes that `countedPasses` has given, of these drills. */
  addCounted(drills: readonly Drill[], passes: readonly Pass[], now: Moment): void {
    const passages = new Map(drills.map(({ id, passage }) => [id, passage]));
    const latest = practiceDay(now, this.#startsAtHour);
    const newest = new Map<Id, Pass>();
    let drillId: Id | null = null;
    let passage: Passage | undefined;
    let beats = 0;
    for (const pass of passes) {
      if (pass.drillId !== drillId) {
        drillId = pass.drillId;
        passage = passages.get(drillId);
        beats = passage ? this.#beatsOf(passage) : 0;
      }
      if (!passage) continue;
      const day = Math.min(latest, practiceDay(soundMoment(pass), this.#startsAtHour));
      const week = this.#week(passage.tuneId, weekOf(day));
      week.seconds += secondsOf(pass, beats, newest.get(drillId));
      week.passes += 1;
      if (pass.outcome === 'clean') week.clean += 1;
      newest.set(drillId, pass);
    }
  }

  /** Oldest first, weeks without practice included; of one tune, or of all together. */
  weeks(tuneId: Id | null = null): Week[] {
    const all = tuneId === null ? [...this.#weeks.values()] : [this.#weeks.get(tuneId) ?? new Map()];
    const together = new Map<PracticeDay, WeekSum>();
    for (const [monday, sum] of all.flatMap((weeks) => [...weeks])) {
      const { seconds, passes, clean } = together.get(monday) ?? NOTHING;
      together.set(monday, {
        ...{ seconds: seconds + sum.seconds, passes: passes + sum.passes, clean: clean + sum.clean },
      });
    }
    return withEmptyWeeks(together);
  }

  /** Passes counted on any passage of a tune. */
  passes(tuneId: Id): number {
    return [...(this.#weeks.get(tuneId)?.values() ?? [])].reduce((sum, { passes }) => sum + passes, 0);
  }

  /** Tunes of which any pass was counted. */
  tuneIds(): Id[] {
    return [...this.#weeks.keys()];
  }

  keep(tuneIds: readonly Id[] = this.tuneIds()): [tuneId: Id, weeks: KeptWeeks][] {
    return tuneIds.map((tuneId) => {
      const weeks = [...(this.#weeks.get(tuneId) ?? [])];
      const numbers = weeks.flatMap(([monday, { seconds, passes, clean }]) => [
        monday,
        seconds,
        passes,
        clean,
      ]);
      return [tuneId, Float64Array.from(numbers)];
    });
  }

  copy(): WeekTally {
    return new WeekTally([...this.#tunes.values()], this.#startsAtHour, this.keep());
  }

  #week(tuneId: Id, monday: PracticeDay): WeekSum {
    let weeks = this.#weeks.get(tuneId);
    if (!weeks) this.#weeks.set(tuneId, (weeks = new Map()));
    let week = weeks.get(monday);
    if (!week) weeks.set(monday, (week = { ...NOTHING }));
    return week;
  }

  #beatsOf(passage: Passage): number {
    const key = passageKey(passage);
    let beats = this.#beats.get(key);
    if (beats === undefined) {
      const tune = this.#tunes.get(passage.tuneId);
      this.#beats.set(key, (beats = tune ? passageBeats(tune, passage) : 0));
    }
    return beats;
  }
}

const NOTHING: WeekSum = { seconds: 0, passes: 0, clean: 0 };

/** A pass is recorded when it is marked, so that the time since the one before holds its playing and the gap. */
function secondsOf(pass: Pass, beats: number, before: Pass | undefined): number {
  const playing = pass.tempo > 0 ? (beats * 60) / pass.tempo : 0;
  const gap = before ? (pass.at - before.at) / 1000 - playing : 0;
  return playing + Math.min(GAP_MAX_SEC, Math.max(0, gap));
}

/** Ten years of weeks at most, so that a clock set wrong cannot draw a chart from 1970. */
const WEEKS_MAX = 522;

function withEmptyWeeks(weeks: ReadonlyMap<PracticeDay, WeekSum>): Week[] {
  const mondays = [...weeks.keys()].sort((a, b) => a - b);
  const last = mondays.at(-1);
  if (last === undefined) return [];
  const first = Math.max(mondays[0] ?? last, last - 7 * (WEEKS_MAX - 1));
  return Array.from({ length: (last - first) / 7 + 1 }, (_, index) => {
    const monday = first + 7 * index;
    const { seconds, passes, clean } = weeks.get(monday) ?? NOTHING;
    const cleanShare = passes > 0 ? clean / passes : null;
    return { monday, date: practiceDayDate(monday), minutes: seconds / 60, passes, clean, cleanShare };
  });
}
