import { soundMoment, type Moment } from '../time/moment';
import { practiceDay, type PracticeDay } from '../time/practice-day';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import { beliefAround, chanceOfClean, observe, playableTempo } from './estimate';
import {
  beginDay,
  closedTempo,
  copyState,
  countPass,
  estimateOf,
  freshState,
  type PassageState,
} from './passage-state';
import {
  figurePrior,
  FIRST_RATIO,
  joinedPrior,
  likeness,
  seamPrior,
  type Prior,
  type Relative,
} from './prior';
import type { Outcome, Pass } from './records';
import type { IndexedShape, Slot, TuneIndex } from './tune-index';

/** What a fold carries from pass to pass. */
export interface FoldContext {
  index: TuneIndex;
  /** By slot; what has not been played has none. */
  states: (PassageState | undefined)[];
  /** When set: the states as they were before the open sitting (`null`: unplayed then), filled as passes touch them. */
  before: Map<Slot, PassageState | null> | null;
  /** Over played figures, at the end of their newest closed day: the sum of ln(settled / goal), and how many. */
  ratioSum: number;
  ratioCount: number;
  now: Moment;
  today: PracticeDay;
  startsAtHour: number;
  /** A pass came from a clock ahead of `now` and was counted as made now: a later fold would count it elsewhere. */
  isAhead: boolean;
  /** Told of every passage that a pass changes. */
  onChange: ((slot: Slot) => void) | null;
}

/** No practice day lies before 2000-01-01: an instant from a clock at its zero point counts there. */
const FIRST_DAY: PracticeDay = 10_957;
/** The usual ratio starts from FIRST_RATIO with the weight of so many figures. */
const RATIO_WEIGHT = 4;

/** Takes one pass in; a pass that must be kept out (`shape` is `null` or the tempo none) changes nothing. */
export function foldPass(fold: FoldContext, shape: IndexedShape | null, pass: Pass): void {
  const tempo = playableTempo(pass.tempo);
  if (!shape || tempo === null) return;
  const moment = soundMoment(pass);
  moment.at = Math.min(moment.at, fold.now.at);
  const local = practiceDay(moment, fold.startsAtHour);
  const day = Math.max(FIRST_DAY, Math.min(local, fold.today));
  if (pass.at > fold.now.at || local > fold.today) fold.isAhead = true;
  const turn: Turn = { fold, pass, tempo, day, moment };
  const { slot, linkSlots, partSlots } = shape;
  if (linkSlots.length !== 1 || linkSlots[0] !== slot) take(turn, slot, pass.outcome);
  if (pass.outcome !== 'clean') takeMiss(turn, shape);
  else {
    for (let place = 0; place < linkSlots.length; place++) take(turn, linkSlots[place]!, 'clean');
    for (let place = 0; place < partSlots.length; place++) take(turn, partSlots[place]!, 'clean');
  }
}

interface Turn {
  fold: FoldContext;
  pass: Pass;
  /** The pass's, as the program plays it. */
  tempo: number;
  day: PracticeDay;
  moment: Moment;
}

/**
 * A miss is put at the measure that it is known to have happened at: everything before held, nothing is said of what
 * comes after. Otherwise all links share it.
 */
function takeMiss(turn: Turn, shape: IndexedShape): void {
  const { missAt, outcome } = turn.pass;
  const { linkSlots, partSlots } = shape;
  const at = missAt === null ? undefined : shape.atMeasure[missAt];
  if (at === undefined || missAt === null) {
    share(turn, linkSlots, linkSlots.length === 1);
    if (partSlots.length > 0) share(turn, partSlots, partSlots.length === 1);
    return;
  }
  for (let place = 0; place < shape.heldBefore[missAt]!; place++) {
    if (!at.includes(place)) take(turn, linkSlots[place]!, 'clean');
  }
  const there = at.map((place) => linkSlots[place]!);
  share(turn, there, true);
  const missed = shape.partAt[missAt];
  for (let place = 0; missed !== undefined && place <= missed; place++) {
    take(turn, partSlots[place]!, place === missed ? outcome : 'clean');
  }
}

function take(turn: Turn, slot: Slot, outcome: Outcome): void {
  const state = stateFor(turn, slot);
  observe(state.belief, turn.tempo, outcome);
  countPass(state, turn.tempo, outcome, turn.pass.fromMemory, turn.moment);
}

/** The chances of the passages that share a miss; kept from pass to pass, because a fold would throw away a million of them. */
const chances: number[] = [];

/** One miss among several passages, each weighed by the chance that all the others held. The outcome is known of the first one alone, when `firstMissed`. */
function share(turn: Turn, slots: readonly Slot[], firstMissed: boolean): void {
  const { tempo, moment } = turn;
  const { outcome, fromMemory } = turn.pass;
  let all = 1;
  for (let place = 0; place < slots.length; place++) {
    const chance = chanceOfClean(stateFor(turn, slots[place]!).belief, tempo);
    chances[place] = chance;
    all *= chance;
  }
  for (let place = 0; place < slots.length; place++) {
    const state = turn.fold.states[slots[place]!]!;
    observe(state.belief, tempo, outcome, all / chances[place]!);
    countPass(state, tempo, place === 0 && firstMissed ? outcome : null, fromMemory, moment);
  }
}

/** The state of a passage on the pass's day, made from its prior at the first pass. */
function stateFor(turn: Turn, slot: Slot): PassageState {
  const { fold, day } = turn;
  const state = fold.states[slot];
  if (fold.before !== null && !fold.before.has(slot)) fold.before.set(slot, state ? copyState(state) : null);
  if (fold.onChange !== null) fold.onChange(slot);
  if (state === undefined) return beginState(turn, slot);
  if (day > state.day) {
    beginDay(state, day);
    if (state.passage.kind === 'figure') noteRatio(fold, state);
  }
  return state;
}

function beginState({ fold, day, moment }: Turn, slot: Slot): PassageState {
  const { passage, key } = fold.index.at(slot);
  const prior = priorOf(fold, passage);
  const state = freshState(passage, key, beliefAround(prior.tempo, prior.spread), day, moment);
  while (fold.states.length < slot) fold.states.push(undefined);
  fold.states[slot] = state;
  return state;
}

function noteRatio(fold: FoldContext, state: PassageState): void {
  const goal = fold.index.tune(state.passage.tuneId)?.goal;
  const closed = closedTempo(state, 0);
  if (goal === undefined || closed === null) return;
  const earlier = closedTempo(state, 1);
  fold.ratioSum += Math.log(closed / (earlier ?? goal));
  if (earlier === null) fold.ratioCount += 1;
}

/** What has been played of a passage. */
export function stateOf({ index, states }: FoldContext, key: PassageKey): PassageState | undefined {
  const slot = index.knownSlot(key);
  return slot === undefined ? undefined : states[slot];
}

/** Where an unplayed passage is expected to be settled, from what has been played. */
export function priorOf(fold: FoldContext, passage: Passage): Prior {
  const goal = fold.index.tune(passage.tuneId)?.goal ?? 120;
  if (passage.kind === 'figure') return priorOfFigure(fold, passage, goal);
  if (passage.kind === 'seam') {
    const { tuneId, fromFigureId, toFigureId } = passage;
    return seamPrior(
      expectedTempo(fold, { kind: 'figure', tuneId, figureId: fromFigureId }),
      expectedTempo(fold, { kind: 'figure', tuneId, figureId: toFigureId }),
    );
  }
  const links = fold.index.shape(passage, passageKey(passage))?.links ?? [];
  if (links.length === 0) return { tempo: FIRST_RATIO * goal, spread: 0.3 };
  return joinedPrior(links.map((link) => expectedTempo(fold, link)));
}

function expectedTempo(fold: FoldContext, passage: Passage): number {
  const state = stateOf(fold, passageKey(passage));
  return state ? estimateOf(state).tempo : priorOf(fold, passage).tempo;
}

function priorOfFigure(
  fold: FoldContext,
  { tuneId, figureId }: Extract<Passage, { kind: 'figure' }>,
  goal: number,
): Prior {
  const key = passageKey({ kind: 'figure', tuneId, figureId });
  const figures = fold.index.tune(tuneId)?.figures ?? [];
  const traits = figures.find((figure) => figure.key === key)?.traits ?? null;
  const relatives: Relative[] = [];
  for (const figure of figures) {
    const state = stateOf(fold, figure.key);
    if (!state || figure.key === key) continue;
    relatives.push({ tempo: estimateOf(state).tempo, likeness: likeness(traits, figure.traits) });
  }
  return figurePrior(goal, usualRatio(fold), relatives);
}

/** What the learner's figures reach of their goals, as a share. */
export function usualRatio({ ratioSum, ratioCount }: Pick<FoldContext, 'ratioSum' | 'ratioCount'>): number {
  return Math.exp((RATIO_WEIGHT * Math.log(FIRST_RATIO) + ratioSum) / (RATIO_WEIGHT + ratioCount));
}
