import type { Moment } from '../time/moment';
import { practiceDay, type PracticeDay } from '../time/practice-day';
import { passageKey, type Passage, type PassageKey } from '../tune/passage';
import { beliefAround, chanceOfClean, observe, playableTempo } from './estimate';
import { beginDay, copyState, countPass, estimateOf, freshState, type PassageState } from './passage-state';
import type { PassageShape } from './passage-shape';
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
import type { TuneIndex } from './tune-index';

/** What a fold carries from pass to pass. */
export interface FoldContext {
  index: TuneIndex;
  states: Map<PassageKey, PassageState>;
  /** When set: the states as they were before the open sitting (`null`: unplayed then), filled as passes touch them. */
  before: Map<PassageKey, PassageState | null> | null;
  /** Over played figures, at the end of their newest closed day: the sum of ln(settled / goal), and how many. */
  ratioSum: number;
  ratioCount: number;
  now: Moment;
  today: PracticeDay;
  startsAtHour: number;
  /** Told of every passage that a pass changes. */
  onChange: ((key: PassageKey) => void) | null;
}

/** No practice day lies before 2000-01-01: an instant from a clock at its zero point counts there. */
const FIRST_DAY: PracticeDay = 10_957;
/** The usual ratio starts from FIRST_RATIO with the weight of so many figures. */
const RATIO_WEIGHT = 4;

/** Takes one pass in; a pass that must be kept out changes nothing. */
export function foldPass(fold: FoldContext, passage: Passage, key: PassageKey, pass: Pass): void {
  const shape = fold.index.shape(passage, key);
  if (!shape || playableTempo(pass.tempo) === null) return;
  const at = Number.isFinite(pass.at) ? Math.min(pass.at, fold.now.at) : 0;
  const moment = { at, offsetMin: Number.isFinite(pass.offsetMin) ? pass.offsetMin : 0 };
  const local = practiceDay(moment, fold.startsAtHour);
  const day = Math.max(FIRST_DAY, Math.min(local, fold.today));
  const turn: Turn = { fold, pass, day, moment };
  const alone = shape.links.length === 1 && shape.linkKeys[0] === key;
  if (!alone) take(turn, passage, key, pass.outcome);
  if (pass.outcome === 'clean') takeClean(turn, shape);
  else takeMiss(turn, shape);
}

interface Turn {
  fold: FoldContext;
  pass: Pass;
  day: PracticeDay;
  moment: Moment;
}

function takeClean(turn: Turn, shape: PassageShape): void {
  for (let place = 0; place < shape.links.length; place++) {
    take(turn, shape.links[place]!, shape.linkKeys[place]!, 'clean');
  }
  for (const part of shape.parts) take(turn, part, passageKey(part), 'clean');
}

/**
 * A miss is put at the measure that it is known to have happened at: everything before held, nothing is said of what
 * comes after. Otherwise all links share it.
 */
function takeMiss(turn: Turn, shape: PassageShape): void {
  const { pass } = turn;
  const at = pass.missAt === null ? undefined : shape.atMeasure[pass.missAt];
  if (at === undefined || pass.missAt === null) {
    share(turn, shape.links, shape.linkKeys);
    if (shape.parts.length > 0) share(turn, shape.parts, shape.parts.map(passageKey));
    return;
  }
  for (let place = 0; place < shape.heldBefore[pass.missAt]!; place++) {
    if (!at.includes(place)) take(turn, shape.links[place]!, shape.linkKeys[place]!, 'clean');
  }
  share(
    turn,
    at.map((place) => shape.links[place]!),
    at.map((place) => shape.linkKeys[place]!),
    true,
  );
  const missed = shape.partAt[pass.missAt];
  for (let place = 0; missed !== undefined && place <= missed; place++) {
    const part = shape.parts[place]!;
    take(turn, part, passageKey(part), place === missed ? pass.outcome : 'clean');
  }
}

function take(turn: Turn, passage: Passage, key: PassageKey, outcome: Outcome): void {
  const state = stateFor(turn, passage, key);
  observe(state.belief, turn.pass.tempo, outcome);
  countPass(state, turn.pass, outcome, turn.moment);
}

/**
 * One miss among several passages, each weighed by the chance that all the others held. The outcome is known of the
 * only one, and of the first one when `firstMissed`.
 */
function share(
  turn: Turn,
  passages: readonly Passage[],
  keys: readonly PassageKey[],
  firstMissed = passages.length === 1,
): void {
  const { tempo, outcome } = turn.pass;
  const states = passages.map((passage, place) => stateFor(turn, passage, keys[place]!));
  const chances = states.map(({ belief }) => chanceOfClean(belief, tempo));
  const all = chances.reduce((product, chance) => product * chance, 1);
  for (const [place, state] of states.entries()) {
    observe(state.belief, tempo, outcome, all / chances[place]!);
    countPass(state, turn.pass, place === 0 && firstMissed ? outcome : null, turn.moment);
  }
}

/** The state of a passage on the pass's day, made from its prior at the first pass. */
function stateFor(turn: Turn, passage: Passage, key: PassageKey): PassageState {
  const { fold, day } = turn;
  let state = fold.states.get(key);
  if (fold.before && !fold.before.has(key)) fold.before.set(key, state ? copyState(state) : null);
  if (!state) {
    const prior = priorOf(fold, passage);
    state = freshState(passage, key, beliefAround(prior.tempo, prior.spread), day, turn.moment);
    fold.states.set(key, state);
  } else if (day > state.day) {
    beginDay(state, day);
    if (passage.kind === 'figure') noteRatio(fold, state);
  }
  fold.onChange?.(key);
  return state;
}

function noteRatio(fold: FoldContext, state: PassageState): void {
  const goal = fold.index.tune(state.passage.tuneId)?.goal;
  const closed = state.history.at(-5);
  if (goal === undefined || closed === undefined) return;
  const earlier = state.history.at(-11);
  fold.ratioSum += Math.log(closed / goal) - (earlier === undefined ? 0 : Math.log(earlier / goal));
  if (earlier === undefined) fold.ratioCount += 1;
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
  const state = fold.states.get(passageKey(passage));
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
    const state = fold.states.get(figure.key);
    if (!state || figure.key === key) continue;
    relatives.push({ tempo: estimateOf(state).tempo, likeness: likeness(traits, figure.traits) });
  }
  const usual = (RATIO_WEIGHT * Math.log(FIRST_RATIO) + fold.ratioSum) / (RATIO_WEIGHT + fold.ratioCount);
  return figurePrior(goal, Math.exp(usual), relatives);
}
