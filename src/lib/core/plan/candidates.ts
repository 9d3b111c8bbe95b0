import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import type { PassageKind } from '../tune/passage';
import type { Moment } from '../time/moment';
import { practiceDay } from '../time/practice-day';
import type { Rust } from '../practice/standing';
import type { ReasonKind } from './plan';
import { BETWEEN_PASSES_SEC, courseOf, drillTempo, gainAMinute, tempoForChance } from './gain';
import { stretchReason } from './stretch-reasons';
import { played, runIn, stretchesOf, type Stretch } from './stretches';
import type { Link, PartLink } from './tune-map';
import { newFigures, type LinkState, type TuneState } from './tune-state';
import * as reasons from './reasons';

/** Something that the plan may take up. */
export interface Candidate {
  state: TuneState;
  link: Link;
  /** `null` when not played. */
  settledTempo: number | null;
  rust: Rust;
  reasonKind: ReasonKind;
  reason: () => string;
  /** What taking it up is worth, in no unit: compared with other candidates only. */
  worth: number;
  startTempo: number;
  towardTempo: number;
  /** As many as it should have, in whole minutes. */
  minutes: number;
  /** As few as make sense: at least two, and room for one pass. */
  leastMinutes: number;
}

/** A turn on one passage is about three minutes (Carter & Grahn 2016), never under two. */
export const TURN_MINUTES = 3;
export const LEAST_MINUTES = 2;
export const MOST_MINUTES = 5;
/** One pass of a whole tune may take longer than a turn, up to this. */
const LONGEST_PLAY_THROUGH = 10;

/** New measures of a tune in one day, and in one passage. */
const NEW_A_DAY = 8;
const NEW_PHRASE = 4;
/** Measures that were not met yet hold up everything that they are part of. */
const NEW_MEASURES = 1.1;
/** New measures of a layer in one plan. */
export const NEW_AT_ONCE = 3;
/** Tunes in the making beyond which no other begins by itself. */
export const TUNES_IN_THE_MAKING = 3;
/** How far above its start a drill may climb. */
const PUSH = 1.3;
/** How sure it has to be that a whole tune holds at its goal: the low end of its interval, as a share of the goal. */
const SURELY = 0.98;
/** How many stretches of one tune a plan is offered. */
const STRETCHES = 8;
/** What is left to gain in the links of a stretch that is already in the plan. */
const TAKEN = 0.5;

/**
 * What else than a stretch of a tune begun is worth beside the best one of a tune that is at its goal. Rules of thumb,
 * chosen by the bench of simulated learners.
 */
const WORTH = { 'new figure': 0.75, 'next layer': 0.65, rusty: 0.7 };

/** Days of waiting that are worth as much as the best reason: what waits grows without bound, so nothing waits for ever. */
const RUSTY_DAYS = 45;
const NEW_TUNE_DAYS = 24;
/** A tune that has not been touched for this long would be worth twice as much, but for the limit. */
const IDLE_DAYS = 25;
const IDLE_MOST = 0.35;

/** Everything worth taking up in one tune, in a fixed order. */
export function candidatesOf(state: TuneState, now: Moment): Candidate[] {
  return [...bestStretches(state).filter(isInOneTurn), ...withoutStretches(state, now)];
}

/** What a tune offers beside its stretches: new measures, a layer, what has faded. */
export function withoutStretches(state: TuneState, now: Moment): Candidate[] {
  return [...newGround(state, now), ...rusty(state, now)].filter(isInOneTurn);
}

/** The tunes of which stretches may come into one plan: more than it has room for. */
const PROMISING = 24;

export function mostPromising(states: readonly TuneState[]): ReadonlySet<TuneState> {
  const begun = states.filter((state) => state.begun && !isAtGoal(state));
  if (begun.length <= PROMISING) return new Set(begun);
  const ranked = begun.map((state) => ({ state, worth: near(state) }));
  ranked.sort((a, b) => b.worth - a.worth || (a.state.tune.id < b.state.tune.id ? -1 : 1));
  return new Set(ranked.slice(0, PROMISING).map(({ state }) => state));
}

function isInOneTurn({ leastMinutes, link }: Candidate): boolean {
  return leastMinutes <= longestTurn(link.passage.kind);
}

function longestTurn(kind: PassageKind): number {
  return kind === 'tune' ? LONGEST_PLAY_THROUGH : MOST_MINUTES;
}

/**
 * A candidate with its tempos and minutes worked out. `likely`: beats per minute at which a long passage should come
 * out by what its links hold, where that is known.
 */
export function candidate(
  state: TuneState,
  { link, standing, tempo, rust }: Pick<LinkState, 'link' | 'standing' | 'tempo' | 'rust'>,
  reasonKind: ReasonKind,
  worth: number,
  reason: () => string,
  likely = 0,
): Candidate {
  const { goal } = state;
  const startTempo = startOf({ standing }, goal, likely);
  // a drill is a climb of some steps of 4 % past the settled tempo, further where that is still a guess
  const upper = Math.max(tempo * 1.15, 1.15 * likely, standing.settled?.high ?? 0);
  const towardTempo = clampTempo(Math.max(startTempo * PUSH, upper), goal);
  const leastMinutes = leastMinutesOf(link, startTempo);
  const minutes = Math.max(leastMinutes, TURN_MINUTES);
  const settledTempo = tempo > 0 ? tempo : null;
  return {
    state,
    link,
    settledTempo,
    rust,
    reasonKind,
    reason,
    worth,
    startTempo,
    towardTempo,
    minutes,
    leastMinutes,
  };
}

/**
 * Comfortable, by the passage's own passes. A long passage has few of them: there also a little under its last clean one,
 * or by what its links hold, but hardly above its own settled tempo.
 */
function startOf({ standing }: Pick<LinkState, 'standing'>, goal: number, likely: number): number {
  const { settled, lastCleanTempo, comfortable } = standing;
  const known = likely === 0 ? 0 : Math.max(likely, UNDER_LAST_CLEAN * (lastCleanTempo ?? 0));
  const most = settled ? LAG * settled.tempo : likely;
  return clampTempo(Math.min(Math.max(comfortable, Math.min(known, most)), goal), goal);
}

const UNDER_LAST_CLEAN = 0.92;
/** An estimate lags behind hands that learn by about so much (the bench of simulated learners). */
const LAG = 1.05;

function leastMinutesOf({ beats }: Link, startTempo: number): number {
  return Math.max(LEAST_MINUTES, Math.ceil(beats / startTempo + BETWEEN_PASSES_SEC / 60));
}

function clampTempo(tempo: number, goal: number): number {
  const whole = Number.isFinite(tempo) ? Math.round(tempo) : Math.round(goal * 0.6);
  return Math.max(TEMPO_MIN, Math.min(whole, Math.floor(goal), TEMPO_MAX));
}

const idle = ({ daysIdle }: TuneState) => Math.min(IDLE_MOST, (daysIdle ?? 0) / IDLE_DAYS);
/** The nearer a tune is to its goal, the more a minute on it is worth. */
const near = (state: TuneState) => 0.35 + 0.65 * state.nearness + idle(state);

/** The stretches that bring most a minute, each chosen as if those before it were practised already. */
function bestStretches(state: TuneState): Candidate[] {
  if (isAtGoal(state)) return [];
  const course = courseOf(state);
  const open = stretchesOf(state).map((stretch) => ({ stretch, tempo: drillTempo(course, stretch) }));
  const found: Candidate[] = [];
  let first = 0;
  while (found.length < STRETCHES && open.length > 0) {
    const gains = open.map(({ stretch, tempo }) => gainAMinute(course, stretch, tempo));
    const best = gains.reduce((most, gain, place) => (gain > gains[most]! ? place : most), 0);
    const [{ stretch }] = open.splice(best, 1) as [(typeof open)[number]];
    if (found.length === 0) first = gains[best]!;
    const share = first > 0 ? gains[best]! / first : 0;
    const likely = Math.exp(tempoForChance(course, stretch.links, BEGUN_CHANCE));
    found.push(drillOf(state, stretch, near(state) * (LEAST_WORTH + (1 - LEAST_WORTH) * share), likely));
    for (const link of new Set(stretch.links)) course.weight[link]! *= TAKEN;
  }
  return found;
}

/** How likely the first pass of a stretch should be clean by what its links hold. */
const BEGUN_CHANCE = 0.75;
/** What the last choice in a tune is worth beside the best. */
const LEAST_WORTH = 0.5;

/** Surely, not by the middle of a guess: what is only likely there is played through until it is sure. */
export function isAtGoal({ whole, goal }: TuneState): boolean {
  const { settled } = whole.standing;
  return settled !== null && settled.low >= SURELY * goal;
}

function drillOf(state: TuneState, stretch: Stretch, worth: number, likely: number): Candidate {
  const item = state.look(stretch.link());
  const { kind, reason } = stretchReason(state, stretch, item);
  const minutes = MINUTES[item.link.passage.kind];
  const made = candidate(state, item, kind, worth, reason, stretch.links.length > 1 ? likely : 0);
  return { ...made, minutes: Math.max(made.leastMinutes, minutes) };
}

const MINUTES: Record<PassageKind, number> = {
  ...{ figure: TURN_MINUTES, seam: TURN_MINUTES, phrase: TURN_MINUTES },
  ...{ part: 4, tune: 10 },
};

/** Unplayed measures in playing order, up to four neighbours at a time: a look at the ground before its hard places are known. */
function newGround(state: TuneState, now: Moment): Candidate[] {
  const phrases = newPhrases(state);
  if (phrases.length > 0) {
    const base = state.begun ? NEW_MEASURES * near(state) : newTuneWorth(state, now);
    return phrases.map(({ link, first }, rank) =>
      candidate(state, state.look(link), 'new figure', base - 0.05 * rank, () =>
        reasons.newFigure(state, state.figures[first]!),
      ),
    );
  }
  return state.linksSettled && state.next ? nextLayer(state, state.next) : [];
}

interface NewPhrase {
  link: Link;
  /** The place of its first figure. */
  first: number;
}

function newPhrases(state: TuneState): NewPhrase[] {
  const found: NewPhrase[] = [];
  const met = new Set<number>();
  const room =
    NEW_A_DAY -
    state.figures.filter(({ standing, daysAway }) => standing.days === 1 && daysAway === 0).length;
  for (const part of state.map.parts) {
    for (let from = 0; from < part.places.length && met.size < room;) {
      const count = newRun(state, part, from, met, room - met.size);
      if (count > 0) found.push({ link: runIn(state, part, from, count), first: part.places[from]! });
      for (const place of part.places.slice(from, from + count)) met.add(place);
      from += Math.max(1, count);
    }
  }
  return found;
}

/** How many measures from `from` on are to be met together, at most `room`: none when the first is known. */
function newRun(
  { figures }: TuneState,
  { places }: PartLink,
  from: number,
  met: ReadonlySet<number>,
  room: number,
): number {
  const isNewAt = (index: number) => {
    const place = places[index];
    return place !== undefined && !met.has(place) && !played(figures[place]!);
  };
  let count = 0;
  while (count < Math.min(NEW_PHRASE, room) && isNewAt(from + count)) count++;
  return count;
}

/** A tune begun goes on before another begins, but one that waits gains on it day by day. */
function newTuneWorth({ tune }: TuneState, now: Moment): number {
  const days = Math.max(0, practiceDay(now) - practiceDay(tune.added));
  return WORTH['new figure'] - 0.3 + Math.min(0.5, days / NEW_TUNE_DAYS);
}

/** Begun, not yet settled, and played within a month: a tune that takes practice. */
export function isInTheMaking({ daysIdle, linksSettled }: TuneState): boolean {
  return daysIdle !== null && daysIdle < 30 && !linksSettled;
}

function nextLayer(state: TuneState, next: NonNullable<TuneState['next']>): Candidate[] {
  return newFigures(state.map, next)
    .slice(0, NEW_AT_ONCE)
    .map((link, rank) =>
      candidate(state, state.look(link), 'next layer', WORTH['next layer'] - 0.05 * rank, () =>
        reasons.nextLayer(state, next, link),
      ),
    );
}

/** The whole of a tune that has been played as one, else its most faded passage. */
function rusty(state: TuneState, now: Moment): Candidate[] {
  const { whole, figures, seams, parts, linksSettled } = state;
  const worst = mostFaded([whole, ...parts, ...seams, ...figures]);
  if (!worst) return [];
  const asOne = linksSettled || played(whole);
  const item = asOne ? whole : worst;
  const refresh = candidate(state, item, 'rusty', rustyWorth(worst), () =>
    reasons.rusty(state, item, worst, now),
  );
  if (refresh.leastMinutes <= longestTurn(item.link.passage.kind)) return [refresh];
  // a tune too long for one turn is refreshed where it has faded most
  const link = mostFaded([...seams, ...figures]);
  return link
    ? [candidate(state, link, 'rusty', rustyWorth(link), () => reasons.rusty(state, link, link, now))]
    : [];
}

function mostFaded(links: readonly LinkState[]): LinkState | null {
  let worst: LinkState | null = null;
  for (const link of links) {
    if (!isFading(link)) continue;
    const isWorse =
      !worst ||
      link.recall < worst.recall ||
      (link.recall === worst.recall && link.link.key < worst.link.key);
    if (isWorse) worst = link;
  }
  return worst;
}

function isFading({ standing, rust, daysAway }: LinkState): boolean {
  return standing.passes > 0 && rust !== 'fresh' && daysAway !== null && daysAway > 1;
}

function rustyWorth({ rust, recall, daysAway }: LinkState): number {
  const faded = rust === 'likely faded' ? 0 : 0.25;
  return WORTH.rusty - faded + 0.4 * (1 - recall) + (daysAway ?? 0) / RUSTY_DAYS;
}
