import { doubtOf } from '$lib/core/practice/climb';
import { climbAfter } from '$lib/core/practice/climb-course';
import { drillIsDone } from '$lib/core/practice/drill-end';
import type { Drill, Outcome, Pass, SealedSitting } from '$lib/core/practice/records';
import { Standings } from '$lib/core/practice/standings';
import { makePlan } from '$lib/core/plan/make-plan';
import { PLAN_MINUTES_MIN, type PlanItem } from '$lib/core/plan/plan';
import { MINUTE_MS, type Moment } from '$lib/core/time/moment';
import { passageStretches } from '$lib/core/tune/places';
import type { PlayedTune, Policy, PolicyFactory, Practice, Stretch } from '../practice';

/** Passes of a turn run until its time is up; without a limit a stuck drill would run on. */
const PASSES_AT_MOST = 60;

/** The program itself: its plan, its climb, its estimates, as the app puts them together. */
export const planner: PolicyFactory = (practice) => new Planner(practice);

export class Planner implements Policy {
  readonly standings: Standings;
  readonly #tunes: ReadonlyMap<string, PlayedTune>;
  #ids = 0;

  constructor({ tunes, now }: Practice) {
    this.#tunes = new Map(tunes.map((tune) => [tune.id, tune]));
    this.standings = new Standings(
      tunes.map(({ tune }) => tune),
      { at: now, offsetMin: 0 },
    );
  }

  sit(practice: Practice): void {
    const sitting = { id: this.#nextId(), drills: [] as Drill[], log: [] as Pass[] };
    const drilled: string[] = [];
    while (practice.minutesLeft > 0) {
      const item = this.#next(practice, drilled);
      if (!item) return practice.rest(60 * practice.minutesLeft + 1);
      this.#drill(practice, sitting, item);
      drilled.push(item.key);
    }
  }

  /** The first item of the plan for what is left of the sitting. */
  #next(practice: Practice, drilled: readonly string[]): PlanItem | undefined {
    const now = momentOf(practice);
    this.standings.moveTo(now);
    const tunes = practice.tunes.map(({ tune }) => tune);
    const inHand = practice.tunes.find(({ tuning }) => tuning === practice.tuningInHand);
    const request = {
      now,
      minutes: Math.max(PLAN_MINUTES_MIN, Math.round(practice.minutesLeft)),
      tuning: inHand?.tune.tuning ?? null,
      hands: 'fresh' as const,
      drilled,
    };
    return makePlan({ tunes, standings: this.standings, request }).items[0];
  }

  #drill(practice: Practice, sitting: Pick<SealedSitting, 'id'> & OpenLog, item: PlanItem): void {
    const tune = this.#tunes.get(item.tuneId)!;
    const stretch = stretchOf(tune, item);
    const drill = {
      id: this.#nextId(),
      sittingId: sitting.id,
      passage: item.passage,
      climb: 'steady' as const,
    };
    sitting.drills.push({ ...drill, ...momentOf(practice) });
    const { startTempo: comfortable, towardTempo: toward, goalTempo: goal } = item;
    const doubt = doubtOf(this.standings.of(item.passage));
    const start = { kind: drill.climb, comfortable, toward, goal, measures: stretch.count, doubt };
    const began = practice.spentMs;
    const passes: { number: number; mark: Outcome }[] = [];
    while (practice.minutesLeft > 0 && passes.length < PASSES_AT_MOST) {
      const { tempo } = climbAfter(start, passes, []).state;
      const { outcome, missAt } = practice.play(stretch, tempo);
      passes.push({ number: passes.length + 1, mark: outcome });
      sitting.log.push({
        ...{ kind: 'pass', id: this.#nextId(), drillId: drill.id, ...momentOf(practice) },
        ...{ tempo, outcome, missAt, fromMemory: passes.length > 2 },
      });
      this.standings.moveTo(momentOf(practice));
      this.standings.applyPasses(sitting);
      const elapsedMin = (practice.spentMs - began) / MINUTE_MS;
      const { settled } = this.standings.of(item.passage);
      const outcomes = passes.map(({ mark }) => mark);
      if (drillIsDone({ elapsedMin, minutes: item.minutes, settled, outcomes })) return;
    }
  }

  #nextId(): string {
    return String(this.#ids++).padStart(9, '0');
  }
}

interface OpenLog {
  drills: Drill[];
  log: Pass[];
}

function momentOf({ now }: Practice): Moment {
  return { at: now, offsetMin: 0 };
}

/** Where the passage first stands in the playing order; a seam is played as its two measures. */
function stretchOf(tune: PlayedTune, { passage }: PlanItem): Stretch {
  const figures = passageStretches(tune.tune, passage).map(({ figure }) => figure.id);
  for (let from = 0; from + figures.length <= tune.figures.length; from++) {
    if (figures.every((figure, at) => figure === tune.figures[from + at])) {
      return { tune, from, count: figures.length };
    }
  }
  throw new Error(`${tune.id} does not play ${figures.join()}`);
}
