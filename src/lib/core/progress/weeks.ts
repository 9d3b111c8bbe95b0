import { practiceDay, practiceDayDate, weekOf, type PracticeDay } from '../time/practice-day';
import { soundMoment, type Moment } from '../time/moment';
import { passageKey, type Passage, type PassageKey, type PassageKind } from '../tune/passage';
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
  /** The same minutes by what was drilled. */
  minutesOf: KindMinutes;
  passes: number;
  clean: number;
  /** 0 to 1; `null` in a week without a pass. */
  cleanShare: number | null;
}

/** What can be drilled, from the smallest to the whole. */
export const DRILLED = ['figure', 'seam', 'phrase', 'part', 'tune'] as const satisfies PassageKind[];

export type KindMinutes = Readonly<Record<PassageKind, number>>;

export const NO_MINUTES: KindMinutes = { figure: 0, seam: 0, phrase: 0, part: 0, tune: 0 };

/** Between two passes of a drill longer than this, the banjo was put down. */
const GAP_MAX_SEC = 20;

/** What one week of one tune adds up to. */
interface WeekSum {
  /** In the order of DRILLED. */
  seconds: number[];
  passes: number;
  clean: number;
}

/** A tune's part of a tally as plain data: for each week what KEPT_FIELDS says. */
export type KeptWeeks = Float64Array;

/** The seconds by what was drilled. Whoever keeps weeks keeps these words with them, so that others are not read as these. */
export const KEPT_FIELDS = ['monday', 'passes', 'clean', ...DRILLED] as const;

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
      for (let at = 0; at < weeks.length; at += KEPT_FIELDS.length) {
        const monday = weeks[at];
        const passes = weeks[at + 1];
        const clean = weeks[at + 2];
        if (monday === undefined || passes === undefined || clean === undefined) continue;
        const seconds: number[] = [];
        // a start in a book of twenty years makes fifty thousand of these
        for (let from = at + 3; from < at + KEPT_FIELDS.length; from++) seconds.push(weeks[from] ?? 0);
        byMonday.set(monday, { seconds, passes, clean });
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
    let kind = 0;
    let beats = 0;
    for (const pass of passes) {
      if (pass.drillId !== drillId) {
        drillId = pass.drillId;
        passage = passages.get(drillId);
        kind = passage ? DRILLED.indexOf(passage.kind) : 0;
        beats = passage ? this.#beatsOf(passage) : 0;
      }
      if (!passage) continue;
      const day = Math.min(latest, practiceDay(soundMoment(pass), this.#startsAtHour));
      const week = this.#week(passage.tuneId, weekOf(day));
      week.seconds[kind]! += secondsOf(pass, beats, newest.get(drillId));
      week.passes += 1;
      if (pass.outcome === 'clean') week.clean += 1;
      newest.set(drillId, pass);
    }
  }

  /** Oldest first, weeks without practice included; of one tune, or of all together. */
  weeks(tuneId: Id | null = null): Week[] {
    const all =
      tuneId === null
        ? [...this.#weeks.values()]
        : [this.#weeks.get(tuneId) ?? new Map<PracticeDay, WeekSum>()];
    const together = new Map<PracticeDay, WeekSum>();
    for (const weeks of all) {
      for (const [monday, sum] of weeks) {
        let week = together.get(monday);
        if (!week) together.set(monday, (week = nothing()));
        for (let kind = 0; kind < DRILLED.length; kind++) week.seconds[kind]! += sum.seconds[kind]!;
        week.passes += sum.passes;
        week.clean += sum.clean;
      }
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
      const weeks = this.#weeks.get(tuneId) ?? new Map<PracticeDay, WeekSum>();
      const numbers = new Float64Array(KEPT_FIELDS.length * weeks.size);
      let at = 0;
      for (const [monday, { seconds, passes, clean }] of weeks) {
        numbers[at] = monday;
        numbers[at + 1] = passes;
        numbers[at + 2] = clean;
        numbers.set(seconds, at + 3);
        at += KEPT_FIELDS.length;
      }
      return [tuneId, numbers];
    });
  }

  copy(): WeekTally {
    return new WeekTally([...this.#tunes.values()], this.#startsAtHour, this.keep());
  }

  #week(tuneId: Id, monday: PracticeDay): WeekSum {
    let weeks = this.#weeks.get(tuneId);
    if (!weeks) this.#weeks.set(tuneId, (weeks = new Map()));
    let week = weeks.get(monday);
    if (!week) weeks.set(monday, (week = nothing()));
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

const nothing = (): WeekSum => ({ seconds: DRILLED.map(() => 0), passes: 0, clean: 0 });

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
    const { seconds, passes, clean } = weeks.get(monday) ?? nothing();
    const cleanShare = passes > 0 ? clean / passes : null;
    const minutes = seconds.reduce((sum, of) => sum + of, 0) / 60;
    const date = practiceDayDate(monday);
    return { monday, date, minutes, minutesOf: minutesOf(seconds), passes, clean, cleanShare };
  });
}

function minutesOf(seconds: readonly number[]): KindMinutes {
  const minutes = { ...NO_MINUTES };
  for (const [at, kind] of DRILLED.entries()) minutes[kind] = (seconds[at] ?? 0) / 60;
  return minutes;
}
