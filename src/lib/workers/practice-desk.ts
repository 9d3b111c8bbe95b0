import { explainPassage, type Explanation } from '../core/plan/explain';
import { alternatives, makePlan, type PlanInput } from '../core/plan/make-plan';
import type { Plan, PlanItem, PlanRequest } from '../core/plan/plan';
import { layerInHand } from '../core/plan/tune-state';
import { drilledToday, noWishes, withWishes, type PlanWishes } from '../core/plan/wishes';
import type { SealedSitting } from '../core/practice/records';
import type { Standing } from '../core/practice/standing';
import { foldStandings, Standings } from '../core/practice/standings';
import { keepFold, resumeFold, type Folded, type KeptFold } from '../core/progress/kept-fold';
import { repertoireMonths, type RepertoireMonth } from '../core/progress/repertoire-months';
import { tuneBoard, type TuneBoard } from '../core/progress/tune-board';
import { tuneProgress, type TuneProgress } from '../core/progress/tune-progress';
import { tuneSummaries, type TuneSummary } from '../core/progress/tune-summary';
import { WeekTally, type Week } from '../core/progress/weeks';
import { DAY_MS, type Moment } from '../core/time/moment';
import type { Passage, PassageKey } from '../core/tune/passage';
import { firstLayer } from '../core/tune/places';
import type { Id, Tune } from '../core/tune/tune';

export type { KeptFold, RepertoireMonth, TuneBoard, TuneProgress, TuneSummary, Week };

/** A book without its log. */
export interface DeskBook {
  tunes: Tune[];
  now: Moment;
  dayStartsAtHour: number;
}

/** A log being folded piece by piece, while the desk still answers by the fold before it. */
interface Folding extends Folded {
  book: DeskBook;
  recent: SealedSitting[];
  /** The newest sittings given, which overlap: folded together once the next one begins after them. */
  waiting: SealedSitting[];
}

/** Sittings that began longer ago than this are not of today, wherever the learner is. */
export const RECENT_MS = 2 * DAY_MS;

/**
 * Holds the tunes and what their log comes to, and answers questions about them at a given moment. The log itself is
 * not kept: a million passes would not fit beside their fold.
 */
export class PracticeDesk {
  #book: DeskBook = { tunes: [], now: { at: 0, offsetMin: 0 }, dayStartsAtHour: 4 };
  #folded: Folded = emptyFold(this.#book);
  #folding: Folding | null = null;
  /** The sitting that `take` was given last, while it is not sealed. */
  #open: SealedSitting | null = null;
  /** Sealed sittings that may be of today, for what was drilled in them. */
  #recent: SealedSitting[] = [];
  /** Tunes whose fold has changed since `keep`; `null`: all. */
  #changed: Set<Id> | null = null;

  /** Begins to fold a log that comes in pieces; until `finish` the desk answers by what it has. */
  begin(book: DeskBook): void {
    this.#folding = { book, recent: [], waiting: [], ...emptyFold(book) };
  }

  /**
   * The next sealed sittings, by the time at which they began; they may overlap, as those of two devices do. `false`: their
   * passes are out of order all the same; give the whole log to `load` instead.
   */
  add(sittings: SealedSitting[]): boolean {
    const folding = this.#folding;
    if (!folding) throw new Error('No fold was begun: call begin first');
    for (const sitting of sittings) {
      const isApart = folding.waiting.every(({ endedAt }) => endedAt < sitting.at);
      if (isApart && !foldWaiting(folding)) return false;
      folding.waiting.push(sitting);
      if (isRecent(sitting, folding.book.now)) folding.recent.push(sitting);
    }
    return true;
  }

  /** From here on the desk answers by the log that `begin` and `add` have been given. `false` as for `add`. */
  finish(): boolean {
    const folding = this.#folding;
    if (!folding) throw new Error('No fold was begun: call begin first');
    if (!foldWaiting(folding)) return false;
    this.#replace(folding.book, folding, folding.recent, null);
    return true;
  }

  /** Replaces everything by a log in any order. */
  load(book: DeskBook, sittings: SealedSitting[]): void {
    const tally = new WeekTally(book.tunes, book.dayStartsAtHour);
    tally.add(sittings, book.now);
    const recent = sittings.filter((sitting) => isRecent(sitting, book.now));
    this.#replace(book, { standings: foldStandings({ ...book, sittings }), tally }, recent, null);
  }

  /**
   * Replaces everything by a fold that was kept; `false`, and nothing is changed, when it cannot be gone on from. `recent`: the
   * sealed sittings of the last two days, which are in the fold already.
   */
  resume(book: DeskBook, kept: KeptFold, recent: SealedSitting[]): boolean {
    const folded = resumeFold(kept, book.tunes, book.now, book.dayStartsAtHour);
    if (folded) this.#replace(book, folded, recent, new Set());
    return folded !== null;
  }

  /** Goes on with the fold that it has, of tunes as they are now: near enough until the log has been folded for them. */
  retune(book: DeskBook): void {
    const { standings, tally } = this.#folded;
    const snapshot = standings.snapshot();
    if (snapshot?.dayStartsAtHour !== book.dayStartsAtHour) return;
    const folded = {
      standings: Standings.fromSnapshot({ ...snapshot, print: '' }, book.tunes, book.now),
      tally: new WeekTally(book.tunes, book.dayStartsAtHour, tally.keep()),
    };
    this.#replace(book, folded, this.#recent, null);
  }

  /**
   * Takes in the open sitting as it stands now, grown or corrected, at the cost of its new passes. `false`, and nothing
   * is changed: it is older than the newest one, so the log has to be folded anew.
   */
  take(sitting: SealedSitting, now: Moment): boolean {
    if (this.#open && this.#open.id !== sitting.id) return false;
    if (!this.#at(now).applyPasses(sitting)) return false;
    this.#open = sitting;
    return true;
  }

  /** As `take`, and the sitting is over: the next one may come. */
  seal(sitting: SealedSitting, now: Moment): boolean {
    if (!this.take(sitting, now)) return false;
    this.#folded.standings.sealOpen();
    this.#folded.tally.add([sitting], now);
    this.#recent = [...this.#recent.filter((recent) => isRecent(recent, now)), sitting];
    this.#open = null;
    for (const { passage } of sitting.drills) this.#changed?.add(passage.tuneId);
    return true;
  }

  /**
   * The sealed part of the fold, to go on from at the next start: the parts of the tunes that have changed since the
   * last call or `resume`, all the first time. `null`: it must not be kept.
   */
  keep(): { kept: KeptFold; isWhole: boolean } | null {
    const kept = keepFold(this.#folded, this.#changed);
    const isWhole = this.#changed === null;
    if (kept) this.#changed = new Set();
    return kept && { kept, isWhole };
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
    const { tunes, dayStartsAtHour } = this.#book;
    const sittings = [...this.#recent, ...(this.#open ? [this.#open] : [])];
    const drilled = drilledToday(sittings, request.now, dayStartsAtHour);
    const standings = this.#at(request.now);
    const wished = wishes ?? noWishes(standings.today);
    return { tunes, standings, request: withWishes(request, wished, drilled) };
  }

  /** `layerId` `null`: the layer that is in the hands, which is also the one that is planned. */
  tuneBoard(tuneId: Id, layerId: Id | null, now: Moment): TuneBoard {
    const shown = layerId ?? this.#layerInHand(this.#tune(tuneId), now);
    return tuneBoard(this.#tune(tuneId), shown, this.#at(now), this.#tally(now).passes(tuneId));
  }

  standing(passage: Passage, now: Moment): Standing {
    return this.#at(now).of(passage);
  }

  tuneList(now: Moment): TuneSummary[] {
    return tuneSummaries(this.#book.tunes, this.#at(now));
  }

  /** In the layer that is in the hands. */
  progress(tuneId: Id, now: Moment): TuneProgress {
    const tune = this.#tune(tuneId);
    const standings = this.#at(now);
    const layerId = this.#layerInHand(tune, now);
    return tuneProgress(tune, layerId, standings, this.#tally(now).weeks(tuneId));
  }

  /** Of all tunes together. */
  weeks(now: Moment): Week[] {
    return this.#tally(now).weeks();
  }

  /** The newest months, `count` at the most. */
  repertoireMonths(count: number, now: Moment): RepertoireMonth[] {
    return repertoireMonths(this.#book.tunes, this.#at(now), count);
  }

  /** `sittings`: the newest ones that played anything of the passage's tune, in any order. */
  explain(passage: Passage, now: Moment, sittings: SealedSitting[]): Explanation {
    return explainPassage({ tunes: this.#book.tunes, standings: this.#at(now), passage, sittings });
  }

  #replace(
    book: DeskBook,
    { standings, tally }: Folded,
    recent: SealedSitting[],
    changed: Set<Id> | null,
  ): void {
    this.#book = book;
    this.#recent = recent;
    this.#folded = { standings, tally };
    this.#folding = null;
    this.#open = null;
    this.#changed = changed;
  }

  #layerInHand(tune: Tune, now: Moment): Id {
    const { layer } = layerInHand(tune, this.#at(now)) ?? { layer: firstLayer(tune) };
    return layer.id;
  }

  #at(now: Moment): Standings {
    const { standings } = this.#folded;
    standings.moveTo(now);
    return standings;
  }

  /** With the open sitting in it. */
  #tally(now: Moment): WeekTally {
    const { tally } = this.#folded;
    if (!this.#open) return tally;
    const withOpen = tally.copy();
    withOpen.add([this.#open], now);
    return withOpen;
  }

  #tune(tuneId: Id): Tune {
    const tune = this.#book.tunes.find(({ id }) => id === tuneId);
    if (!tune) throw new Error(`No tune ${tuneId} on the desk: load the book again after adding one`);
    return tune;
  }
}

function emptyFold({ tunes, now, dayStartsAtHour }: DeskBook): Folded {
  return {
    standings: new Standings(tunes, now, dayStartsAtHour),
    tally: new WeekTally(tunes, dayStartsAtHour),
  };
}

function foldWaiting({ waiting, standings, tally, book }: Folding): boolean {
  const [first, ...others] = waiting.splice(0);
  if (!first) return true;
  const together =
    others.length === 0
      ? first
      : {
          drills: [first, ...others].flatMap(({ drills }) => drills),
          log: [first, ...others].flatMap(({ log }) => log),
        };
  const passes = standings.takeNext(together);
  if (passes) tally.addCounted(together.drills, passes, book.now);
  return passes !== null;
}

function isRecent({ at }: SealedSitting, now: Moment): boolean {
  return Math.abs(now.at - at) < RECENT_MS;
}
