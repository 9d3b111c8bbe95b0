import { explainPassage } from '../core/plan/explain';
import { alternatives, makePlan, type PlanInput } from '../core/plan/make-plan';
import type { Plan, PlanItem, PlanRequest } from '../core/plan/plan';
import { layerInHand } from '../core/plan/tune-state';
import { drilledToday, noWishes, withWishes, type PlanWishes } from '../core/plan/wishes';
import type { SealedSitting } from '../core/practice/records';
import type { Standing } from '../core/practice/standing';
import { countedPasses } from '../core/practice/settled-log';
import { foldStandings, type Standings } from '../core/practice/standings';
import { tuneBoard, type TuneBoard } from '../core/progress/tune-board';
import { tuneProgress, type TuneProgress } from '../core/progress/tune-progress';
import { tuneSummaries, type TuneSummary } from '../core/progress/tune-summary';
import { practiceByWeek, type Week } from '../core/progress/weeks';
import type { Moment } from '../core/time/moment';
import type { Passage, PassageKey } from '../core/tune/passage';
import { firstLayer } from '../core/tune/places';
import type { Id, Tune } from '../core/tune/tune';

export type { TuneBoard, TuneProgress, TuneSummary, Week };

export interface DeskInput {
  tunes: Tune[];
  /** The open sitting comes in the same shape. */
  sittings: SealedSitting[];
  now: Moment;
  dayStartsAtHour: number;
}

/** Holds the tunes and their log, folded, and answers questions about them at a given moment. */
export class PracticeDesk {
  #input: DeskInput = { tunes: [], sittings: [], now: { at: 0, offsetMin: 0 }, dayStartsAtHour: 4 };
  #standings: Standings = foldStandings(this.#input);

  /** Replaces everything. */
  load(input: DeskInput): void {
    this.#input = input;
    this.#standings = foldStandings(input);
  }

  /** Takes in one sitting as it stands now, new, grown or corrected, at the cost of its new passes where it can. */
  take(sitting: SealedSitting, now: Moment): void {
    const { sittings } = this.#input;
    const known = sittings.findIndex(({ id }) => id === sitting.id);
    if (known >= 0) sittings[known] = sitting;
    else sittings.push(sitting);
    const standings = this.#at(now);
    const isLast = known < 0 || known === sittings.length - 1;
    if (!isLast || !standings.applyPasses(sitting)) this.load({ ...this.#input, now });
  }

  /** The plan as the learner's wishes steer it, and as what was drilled today leaves it. */
  plan(request: PlanRequest, wishes?: PlanWishes): Plan {
    return makePlan(this.#planInput(request, wishes));
  }

  /** What could take the place of a passage in that plan. */
  alternatives(request: PlanRequest, wishes: PlanWishes, key: PassageKey): PlanItem[] {
    return alternatives(this.#planInput(request, wishes), key);
  }

  #planInput(request: PlanRequest, wishes?: PlanWishes): PlanInput {
    const { tunes, sittings, dayStartsAtHour } = this.#input;
    const drilled = drilledToday(sittings, request.now, dayStartsAtHour);
    const standings = this.#at(request.now);
    const wished = wishes ?? noWishes(standings.today);
    return { tunes, standings, request: withWishes(request, wished, drilled) };
  }

  tuneBoard(tuneId: Id, layerId: Id, now: Moment): TuneBoard {
    const tune = this.#tune(tuneId);
    const passes = passesOfTune(this.#input.sittings, tuneId);
    return tuneBoard(tune, layerId, this.#at(now), passes);
  }

  standing(passage: Passage, now: Moment): Standing {
    return this.#at(now).of(passage);
  }

  tuneList(now: Moment): TuneSummary[] {
    return tuneSummaries(this.#input.tunes, this.#at(now));
  }

  /** In the layer that is in the hands. */
  progress(tuneId: Id, now: Moment): TuneProgress {
    const tune = this.#tune(tuneId);
    const standings = this.#at(now);
    const { tunes, sittings, dayStartsAtHour } = this.#input;
    const { layer } = layerInHand(tune, standings) ?? { layer: firstLayer(tune) };
    const weeks = practiceByWeek(tunes, sittings, dayStartsAtHour, tuneId);
    return tuneProgress(tune, layer.id, standings, weeks);
  }

  /** Of all tunes together. */
  weeks(): Week[] {
    const { tunes, sittings, dayStartsAtHour } = this.#input;
    return practiceByWeek(tunes, sittings, dayStartsAtHour);
  }

  explain(passage: Passage, now: Moment): string[] {
    return explainPassage(this.#input.tunes, this.#at(now), passage);
  }

  #at(now: Moment): Standings {
    this.#standings.moveTo(now);
    return this.#standings;
  }

  #tune(tuneId: Id): Tune {
    const tune = this.#input.tunes.find(({ id }) => id === tuneId);
    if (!tune) throw new Error(`No tune ${tuneId} on the desk: load the book again after adding one`);
    return tune;
  }
}

function passesOfTune(sittings: readonly SealedSitting[], tuneId: Id): number {
  const drills = new Set<Id>();
  for (const sitting of sittings) {
    for (const { id, passage } of sitting.drills) if (passage.tuneId === tuneId) drills.add(id);
  }
  const log = sittings.flatMap((sitting) => sitting.log.filter(({ drillId }) => drills.has(drillId)));
  return countedPasses(log).length;
}
