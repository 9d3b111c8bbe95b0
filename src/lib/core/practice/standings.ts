import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import type { Moment } from '../time/moment';
import { DAY_STARTS_AT_HOUR, practiceDay, type PracticeDay } from '../time/practice-day';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import type { Id, Tune } from '../tune/tune';
import { beliefAround, chanceOfClean, copyBelief, passTime } from './estimate';
import { foldPass, priorOf, stateOf, usualRatio, type FoldContext } from './fold-pass';
import {
  cleanOfRecent,
  estimateAt,
  historyOf,
  keptState,
  memoryOf,
  recentPasses,
  type DayRecord,
  type PassageState,
  type RecentPass,
} from './passage-state';
import { fading, recallAt, rustAt } from './memory';
import { passagePast, type PassagePast } from './passage-past';
import type { Link } from './passage-shape';
import { comfortableOfPrior } from './prior';
import type { Drill, LogEntry, Pass, SealedSitting } from './records';
import { countedPasses } from './settled-log';
import type { Standing, TuneDayRecord, TuneSettled } from './standing';
import { TuneIndex, type IndexedShape } from './tune-index';

export interface StandingsInput {
  tunes: readonly Tune[];
  /** In any order; the same record twice is one record. The open sitting comes in the same shape. */
  sittings: readonly Pick<SealedSitting, 'drills' | 'log'>[];
  now: Moment;
  /** The local hour at which a practice day begins. */
  dayStartsAtHour?: number;
  /** Called now and then with the passes folded so far and all there are. */
  onProgress?: (done: number, total: number) => void;
}

/** The folded state as plain data (structured clone keeps it whole), for a cold start without the log. */
export interface StandingsSnapshot {
  /** See `foldPrint`. */
  print: string;
  dayStartsAtHour: number;
  last: { at: number; id: Id } | null;
  ratioSum: number;
  ratioCount: number;
  states: PassageState[];
}

/**
 * Folds the whole log. The same records in any order give the same standings. Passes on unknown or deleted tunes and
 * on passages no longer in their tune are kept out; passes from a clock set wrong count on the nearest possible day.
 */
export function foldStandings(input: StandingsInput): Standings {
  const standings = new Standings(input.tunes, input.now, input.dayStartsAtHour);
  const drills = new Map<Id, Drill>();
  let entries = 0;
  for (const sitting of input.sittings) {
    entries += sitting.log.length;
    for (const drill of sitting.drills) addDrill(drills, drill);
  }
  const log = new Array<LogEntry>(entries);
  let at = 0;
  for (const sitting of input.sittings) for (const entry of sitting.log) log[at++] = entry;
  standings.foldAll(countedPasses(log), drills, input.onProgress);
  return standings;
}

/** Drills that share an id are one drill; should they differ all the same, the choice does not depend on their order. */
function addDrill(drills: Map<Id, Drill>, drill: Drill): void {
  const other = drills.get(drill.id);
  if (!other || passageKey(drill.passage) < passageKey(other.passage)) drills.set(drill.id, drill);
}

/** The sitting that `applyPasses` was given last, and what to go back to when it is corrected. */
interface OpenSitting {
  sittingId: Id;
  applied: Pass[];
  last: Position | null;
  ratio: [sum: number, count: number];
}

/** What the log says of every passage at one moment. */
export class Standings {
  readonly #index: TuneIndex;
  readonly #fold: FoldContext;
  readonly #startsAtHour: number;
  #now: Moment;
  #today: PracticeDay;
  #last: Position | null = null;
  #open: OpenSitting | null = null;
  /** By slot. */
  #played: (Standing | undefined)[] = [];
  readonly #unplayed = new Map<Id, Map<PassageKey, Standing>>();
  readonly #revisions = new Map<Id, number>();
  #epoch = 0;

  constructor(tunes: readonly Tune[], now: Moment, dayStartsAtHour = DAY_STARTS_AT_HOUR) {
    this.#index = new TuneIndex(tunes);
    this.#startsAtHour = dayStartsAtHour;
    this.#now = now;
    this.#today = practiceDay(now, dayStartsAtHour);
    this.#fold = {
      ...{ index: this.#index, states: [], before: null, ratioSum: 0, ratioCount: 0, isAhead: false },
      ...{ now, today: this.#today, startsAtHour: dayStartsAtHour, onChange: null },
    };
  }

  /**
   * Goes on from a snapshot as the fold itself would have; its states are taken over, not copied. The caller answers for its
   * log and its `print` (see `foldPrint`).
   */
  static fromSnapshot(snapshot: StandingsSnapshot, tunes: readonly Tune[], now: Moment): Standings {
    const standings = new Standings(tunes, now, snapshot.dayStartsAtHour);
    standings.#last = snapshot.last;
    standings.#fold.ratioSum = snapshot.ratioSum;
    standings.#fold.ratioCount = snapshot.ratioCount;
    for (const state of snapshot.states) standings.#put(state);
    return standings;
  }

  /**
   * The sealed part of the fold: the sitting that `applyPasses` holds open is left out. `of`: only the states of these tunes.
   * `null` when it must not be kept, because a clock that ran ahead makes it depend on the moment of the fold.
   */
  snapshot(of: ReadonlySet<Id> | null = null): Omit<StandingsSnapshot, 'print'> | null {
    const { states, before, isAhead } = this.#fold;
    if (isAhead) return null;
    const kept: PassageState[] = [];
    for (const [slot, now] of states.entries()) {
      const state = before?.has(slot) ? before.get(slot) : now;
      if (state && (of === null || of.has(state.passage.tuneId))) kept.push(keptState(state));
    }
    const [ratioSum, ratioCount] = this.#open?.ratio ?? [this.#fold.ratioSum, this.#fold.ratioCount];
    const last = this.#open ? this.#open.last : this.#last;
    return { dayStartsAtHour: this.#startsAtHour, last, ratioSum, ratioCount, states: kept };
  }

  get now(): Moment {
    return this.#now;
  }

  get dayStartsAtHour(): number {
    return this.#startsAtHour;
  }

  get today(): PracticeDay {
    return this.#today;
  }

  /** Moves the moment that standings are read at. */
  moveTo(now: Moment): void {
    this.#now = now;
    this.#fold.now = now;
    const today = practiceDay(now, this.#startsAtHour);
    if (today !== this.#today) this.#played = [];
    this.#today = today;
    this.#fold.today = today;
  }

  /** For `foldStandings` only: passes in canonical order. */
  foldAll(
    passes: readonly Pass[],
    drills: ReadonlyMap<Id, Drill>,
    onProgress?: (done: number, total: number) => void,
  ): void {
    let drillId: Id | null = null;
    let shape: IndexedShape | null = null;
    for (let done = 0; done < passes.length; done++) {
      const pass = passes[done]!;
      if (onProgress && done % 20_000 === 0) onProgress(done, passes.length);
      if (drillId !== pass.drillId) {
        drillId = pass.drillId;
        shape = this.#shapeOf(drills.get(drillId));
      }
      foldPass(this.#fold, shape, pass);
    }
    onProgress?.(passes.length, passes.length);
    this.#epoch += 2 ** 32;
    this.#last = lastOf(passes, this.#last, this.#now.at);
  }

  /**
   * Folds the next sealed sitting of a log that comes in pieces, by time, and gives its counted passes. `null`, and nothing
   * more can be made of this object: it is out of order, or leans on another, so fold the whole log at once (`foldStandings`).
   */
  takeNext({ drills, log }: Pick<SealedSitting, 'drills' | 'log'>): Pass[] | null {
    const passes = countedPasses(log);
    const first = passes[0];
    if (first && this.#last && isEarlier(first, this.#last)) return null;
    const known = new Map<Id, Drill>();
    for (const drill of drills) addDrill(known, drill);
    if (leansOnAnother(log, known)) return null;
    this.foldAll(passes, known);
    return passes;
  }

  /** The sitting given to `applyPasses` last is sealed as it stands: it becomes part of `snapshot`. */
  sealOpen(): void {
    this.#open = null;
    this.#fold.before = null;
  }

  /**
   * Takes in a sitting as it stands now, open or just sealed; call it again whenever that sitting's log has grown or
   * been corrected. `false`: the sitting is older than what is already folded, so fold the whole log again.
   */
  applyPasses(sitting: Pick<SealedSitting, 'id' | 'drills' | 'log'>): boolean {
    const passes = countedPasses(sitting.log);
    const first = passes[0];
    if (this.#open?.sittingId !== sitting.id) {
      if (first && this.#last && isEarlier(first, this.#last)) return false;
      this.#fold.before = new Map();
      const ratio: OpenSitting['ratio'] = [this.#fold.ratioSum, this.#fold.ratioCount];
      this.#open = { sittingId: sitting.id, applied: [], last: this.#last, ratio };
    }
    const { applied, last } = this.#open;
    if (first && last && isEarlier(first, last)) return false;
    const grown = applied.every((pass, at) => samePass(pass, passes[at]));
    if (!grown) this.#rollBack();
    const drills = new Map(sitting.drills.map((drill) => [drill.id, drill]));
    this.#fold.onChange ??= (slot) => {
      this.#played[slot] = undefined;
    };
    for (const pass of passes.slice(grown ? applied.length : 0)) {
      const drill = drills.get(pass.drillId);
      if (!drill) continue;
      foldPass(this.#fold, this.#shapeOf(drill), pass);
      this.#touch(drill.passage.tuneId);
    }
    this.#open.applied = passes;
    this.#last = lastOf(passes, last, this.#now.at);
    return true;
  }

  #shapeOf(drill: Drill | undefined): IndexedShape | null {
    return drill ? this.#index.shape(drill.passage, passageKey(drill.passage)) : null;
  }

  #put(state: PassageState): void {
    const { states } = this.#fold;
    const slot = this.#index.slotOf(state.passage, state.key);
    while (states.length < slot) states.push(undefined);
    states[slot] = state;
  }

  #touch(tuneId: Id): void {
    this.#unplayed.delete(tuneId);
    this.#revisions.set(tuneId, (this.#revisions.get(tuneId) ?? 0) + 1);
  }

  /** Rises whenever passes change a standing of the tune; the change of the day is not told. */
  revisionOf(tuneId: Id): number {
    return this.#epoch + (this.#revisions.get(tuneId) ?? 0);
  }

  /** What the standings of unplayed passages rest on beside their own tune. */
  get expectation(): number {
    return usualRatio(this.#fold);
  }

  #rollBack(): void {
    const { before, states } = this.#fold;
    for (const [slot, state] of before ?? []) {
      states[slot] = state ?? undefined;
      this.#played[slot] = undefined;
    }
    this.#epoch += 2 ** 32;
    this.#unplayed.clear();
    this.#fold.before = new Map();
    if (this.#open) [this.#fold.ratioSum, this.#fold.ratioCount] = this.#open.ratio;
  }

  /** Cheaper than `of` for a passage that has not been played: that takes a prior. */
  isPlayed(key: PassageKey): boolean {
    return stateOf(this.#fold, key) !== undefined;
  }

  /** The standing of any passage, played or not. `key` is the passage's own, where it is at hand. */
  of(passage: Passage, key: PassageKey = passageKey(passage)): Standing {
    const slot = this.#index.knownSlot(key);
    const state = slot === undefined ? undefined : this.#fold.states[slot];
    if (slot === undefined || state === undefined) return this.#unplayedStanding(passage, key);
    return (this.#played[slot] ??= this.#standing(state));
  }

  /** The standings of all passages that have been played. */
  toMap(): Map<PassageKey, Standing> {
    const standings = new Map<PassageKey, Standing>();
    for (const state of this.#fold.states) {
      if (state) standings.set(state.key, this.of(state.passage, state.key));
    }
    return standings;
  }

  /** A passage's practice days, oldest first; empty when it has not been played. */
  historyOf(key: PassageKey): DayRecord[] {
    const state = stateOf(this.#fold, key);
    return state ? historyOf(state) : [];
  }

  /** See `passagePast`; `null` when it has not been played. */
  pastOf(key: PassageKey, days: readonly PracticeDay[]): (PassagePast | null)[] | null {
    const state = stateOf(this.#fold, key);
    return state ? passagePast(state, days) : null;
  }

  /** The newest passes (at most 20) whose outcome in this passage is known, oldest first. */
  recentOf(key: PassageKey): RecentPass[] {
    const state = stateOf(this.#fold, key);
    return state ? recentPasses(state) : [];
  }

  /** The predicted chance of a clean pass now, at a tempo; never rises with the tempo. */
  chanceOfClean(passage: Passage, tempo: number): number {
    const state = stateOf(this.#fold, passageKey(passage));
    if (!state) {
      const prior = priorOf(this.#fold, passage);
      return chanceOfClean(beliefAround(prior.tempo, prior.spread), tempo);
    }
    const { sink, variance } = fading(memoryOf(state), this.#today);
    const belief = copyBelief(state.belief);
    passTime(belief, sink, variance);
    return chanceOfClean(belief, tempo);
  }

  /** A seam is worth drilling once both of its figures are settled. */
  seamIsOpen(seam: Extract<Link, { kind: 'seam' }>): boolean {
    const { tuneId, fromFigureId, toFigureId } = seam;
    return [fromFigureId, toFigureId].every(
      (figureId) => this.of({ kind: 'figure', tuneId, figureId }).isSettled,
    );
  }

  /** The tune's own tempo, or `null` when nothing of it has been played in this layer. */
  tuneSettled(tune: Tune, layerId: Id): TuneSettled | null {
    const { figures, seams } = this.#index.layer(tune, layerId);
    const links = [...figures, ...seams.filter((seam) => this.seamIsOpen(seam))].map((link) => this.of(link));
    const slowest = links
      .filter(({ settled }) => settled !== null)
      .sort((a, b) => (a.settled?.tempo ?? 0) - (b.settled?.tempo ?? 0));
    const settled = slowest[0]?.settled;
    return settled ? { settled, slowest, unplayed: links.length - slowest.length } : null;
  }

  /** The slowest played figure or seam of a tune at the end of each practice day on which one was played. */
  tuneHistory(tune: Tune, layerId: Id): TuneDayRecord[] {
    const { figures, seams } = this.#index.layer(tune, layerId);
    const keys = [...figures, ...seams].map(passageKey);
    const events = keys.flatMap((key) => this.historyOf(key).map((record) => ({ ...record, key })));
    events.sort((a, b) => a.day - b.day);
    const latest = new Map<PassageKey, TuneDayRecord>();
    const days: TuneDayRecord[] = [];
    for (const [at, { day, key, tempo, low, high }] of events.entries()) {
      latest.set(key, { day, key, tempo, low, high });
      if (events[at + 1]?.day === day) continue;
      const slowest = [...latest.values()].reduce((a, b) => (b.tempo < a.tempo ? b : a));
      days.push({ ...slowest, day });
    }
    return days;
  }

  #unplayedStanding(passage: Passage, key: PassageKey): Standing {
    let cache = this.#unplayed.get(passage.tuneId);
    if (!cache) this.#unplayed.set(passage.tuneId, (cache = new Map()));
    let standing = cache.get(key);
    if (!standing) cache.set(key, (standing = this.#expected(passage, key)));
    return standing;
  }

  #goal(tuneId: Id): number {
    return this.#index.tune(tuneId)?.goal ?? TEMPO_MAX;
  }

  #standing(state: PassageState): Standing {
    const { passage, days } = state;
    const memory = memoryOf(state);
    // written out: a plan on a new day makes twenty thousand of these
    const { tempo, low, high, comfortable } = estimateAt(state, memory, this.#today);
    const goal = this.#goal(passage.tuneId);
    return {
      key: state.key,
      passage,
      settled: { tempo, low, high },
      comfortable: startingTempo(comfortable, goal),
      rust: rustAt(memory, this.#today),
      recall: recallAt(memory, this.#today),
      passes: state.passes,
      days,
      cleanOfLast20: cleanOfRecent(state),
      ofLast: state.recent.length,
      lastPlayed: state.lastPlayed,
      lastCleanTempo: state.lastCleanTempo,
      isSettled: days >= 2 && tempo >= SETTLED_SHARE * goal,
    };
  }

  #expected(passage: Passage, key: PassageKey): Standing {
    const comfortable = comfortableOfPrior(priorOf(this.#fold, passage));
    return {
      ...{ key, passage, settled: null, rust: 'fresh', recall: 0, passes: 0, days: 0 },
      comfortable: startingTempo(comfortable, this.#goal(passage.tuneId)),
      ...{ cleanOfLast20: 0, ofLast: 0, lastPlayed: null, lastCleanTempo: null, isSettled: false },
    };
  }
}

/** From this share of the goal on, a passage counts as settled (DESIGN.md section 5). */
const SETTLED_SHARE = 0.75;

function startingTempo(comfortable: number, goal: number): number {
  return Math.round(Math.max(TEMPO_MIN, Math.min(comfortable, goal)));
}

type Position = Pick<Pass, 'at' | 'id'>;

function isEarlier(a: Pass, than: Position): boolean {
  return a.at < than.at || (a.at === than.at && a.id <= than.id);
}

/** Whether a log has passes of a drill, or corrections of a pass, that it does not hold itself. */
function leansOnAnother(log: readonly LogEntry[], drills: ReadonlyMap<Id, Drill>): boolean {
  const corrected = new Set<Id>();
  let drillId: Id | null = null;
  for (const entry of log) {
    if (entry.kind === 'correction') corrected.add(entry.passId);
    else if (entry.drillId !== drillId && !drills.has((drillId = entry.drillId))) return true;
  }
  if (corrected.size > 0) for (const { id } of log) corrected.delete(id);
  return corrected.size > 0;
}

function samePass(a: Pass, b: Pass | undefined): boolean {
  return a.id === b?.id && a.outcome === b.outcome && a.tempo === b.tempo && a.missAt === b.missAt;
}

/** The position after the passes. One from the future holds no later pass up: it counts as made now. */
function lastOf(passes: readonly Pass[], before: Position | null, nowAt: number): Position | null {
  const last = passes.at(-1);
  return last ? { at: Math.min(last.at, nowAt), id: last.id } : before;
}
