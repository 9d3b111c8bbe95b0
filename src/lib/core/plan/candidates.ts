import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import type { PassageKind } from '../tune/passage';
import type { Moment } from '../time/moment';
import { practiceDay } from '../time/practice-day';
import type { Rust } from '../practice/standing';
import type { ReasonKind } from './plan';
import { phrasesOf, type Link } from './tune-map';
import { newFigures, type LinkState, type TuneState } from './tune-state';
import * as say from './reasons';

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
/** Between passes: the breath and the mark. */
const BETWEEN_PASSES_SEC = 3;

/** New figures begun in one plan, and figures not yet settled beyond which nothing new is begun in a tune. */
export const NEW_AT_ONCE = 3;
const IN_WORK_AT_ONCE = 6;
/** Tunes in the making beyond which no other begins by itself. */
export const TUNES_IN_THE_MAKING = 3;
/** A figure that is still not settled after this many practice days no longer keeps new ones waiting. */
const LONG_IN_WORK_DAYS = 10;

/** How many of a tune's slowest links may be in one plan. */
const SLOW_LINKS = 6;
const PHRASE_MEASURES = 8;

/**
 * How each kind of reason is weighed: first the link that holds a tune back, then joining what holds, then the whole,
 * then new ground. Rules of thumb, to be chosen by the bench of simulated learners.
 */
const WORTH: Record<Exclude<ReasonKind, 'warm-up' | 'your choice'>, number> = {
  'slowest link': 1,
  'slow seam': 1,
  'open seam': 0.95,
  'join the part': 0.9,
  'play it through': 0.85,
  'new figure': 0.75,
  'next layer': 0.65,
  rusty: 0.7,
};

/** Days of waiting that are worth as much as the best reason: what waits grows without bound, so nothing waits for ever. */
const RUSTY_DAYS = 45;
const WAITING_DAYS = 120;
const NEW_TUNE_DAYS = 24;
/** A tune that has not been touched for this long would be worth twice as much, but for the limit. */
const IDLE_DAYS = 25;
const IDLE_MOST = 0.35;

/** Everything worth taking up in one tune, in a fixed order. */
export function candidatesOf(state: TuneState, now: Moment): Candidate[] {
  const found = [
    ...slowLinks(state),
    ...openSeams(state),
    ...joins(state),
    ...newGround(state, now),
    ...rusty(state, now),
  ];
  return found.filter((candidate) => candidate.leastMinutes <= longestTurn(candidate.link.passage.kind));
}

function longestTurn(kind: PassageKind): number {
  return kind === 'tune' ? LONGEST_PLAY_THROUGH : MOST_MINUTES;
}

/** A candidate with its tempos and minutes worked out; `worth` is added to that of its kind. */
export function candidate(
  state: TuneState,
  { link, standing, tempo, rust }: Pick<LinkState, 'link' | 'standing' | 'tempo' | 'rust'>,
  reasonKind: ReasonKind,
  worth: number,
  reason: () => string,
): Candidate {
  const { goal } = state;
  const startTempo = startOf({ standing }, goal);
  // a drill is a climb of some steps of 4 % past the settled tempo, further where that is still a guess
  const upper = Math.max(tempo * 1.12, standing.settled?.high ?? 0);
  const towardTempo = clampTempo(Math.max(startTempo * (tempo > 0 ? 1.08 : 1.25), upper), goal);
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

function startOf({ standing }: Pick<LinkState, 'standing'>, goal: number): number {
  return clampTempo(Math.min(standing.comfortable, goal), goal);
}

function leastMinutesOf({ beats }: Link, startTempo: number): number {
  return Math.max(LEAST_MINUTES, Math.ceil(beats / startTempo + BETWEEN_PASSES_SEC / 60));
}

function clampTempo(tempo: number, goal: number): number {
  const whole = Number.isFinite(tempo) ? Math.round(tempo) : Math.round(goal * 0.6);
  return Math.max(TEMPO_MIN, Math.min(whole, Math.floor(goal), TEMPO_MAX));
}

type Part = TuneState['parts'][number];

const played = ({ standing }: LinkState) => standing.passes > 0;
/** A link left alone gains on the others without bound, and so does a whole tune up to a limit. */
const waiting = ({ daysAway }: LinkState) => (daysAway ?? 0) / WAITING_DAYS;
const idle = ({ daysIdle }: TuneState) => Math.min(IDLE_MOST, (daysIdle ?? 0) / IDLE_DAYS);
/** The nearer a tune is to its goal, the more its slowest link is worth. */
const near = (state: TuneState) => 0.35 + 0.65 * state.nearness + idle(state);

function slowLinks(state: TuneState): Candidate[] {
  return slowest(state).map((item, rank) => {
    const seam = isSeam(item) ? item : null;
    const drags = seam !== null && say.seamDrags(state, seam);
    const kind = drags ? 'slow seam' : 'slowest link';
    const worth = WORTH[kind] * near(state) - 0.07 * rank + waiting(item);
    return candidate(state, item, kind, worth, () =>
      drags ? say.slowSeam(state, seam) : say.slowestLink(state, item, rank),
    );
  });
}

/** The slowest played links below the goal, the slowest first; kept short while walking, for large books. */
function slowest({ figures, seams, goal }: TuneState): AnyLink[] {
  const found: AnyLink[] = [];
  const below = Math.floor(goal);
  for (const list of [figures, seams]) {
    for (const item of list) {
      if (!played(item) || Math.round(item.tempo) >= below) continue;
      const last = found[SLOW_LINKS - 1];
      if (last && !isSlower(item, last)) continue;
      let place = found.length;
      while (place > 0 && isSlower(item, found[place - 1]!)) place--;
      found.splice(place, 0, item);
      if (found.length > SLOW_LINKS) found.pop();
    }
  }
  return found;
}

type AnyLink = TuneState['figures'][number] | TuneState['seams'][number];

function isSeam(item: AnyLink): item is TuneState['seams'][number] {
  return item.link.passage.kind === 'seam';
}

function isSlower(a: LinkState, b: LinkState): boolean {
  return a.tempo < b.tempo || (a.tempo === b.tempo && a.link.key < b.link.key);
}

function openSeams(state: TuneState): Candidate[] {
  return state.seams
    .filter((seam) => !played(seam) && endsOf(state, seam).every(({ standing }) => standing.isSettled))
    .map((seam, rank) =>
      candidate(state, seam, 'open seam', WORTH['open seam'] * near(state) - 0.05 * rank, () =>
        say.openSeam(state, seam),
      ),
    );
}

function endsOf(state: TuneState, { link }: TuneState['seams'][number]): LinkState[] {
  return [state.figures[link.from]!, state.figures[link.to]!];
}

function joins(state: TuneState): Candidate[] {
  const found = state.parts
    .filter((part) => partIsReady(state, part) && !isJoined(state, part))
    .flatMap((part) => joinPart(state, part));
  const { whole, parts, goal, linksSettled } = state;
  const ready = linksSettled && parts.every((part) => isJoined(state, part) || part.standing.passes > 0);
  if (ready && (!whole.standing.isSettled || Math.round(whole.tempo) < Math.floor(goal))) {
    const worth = WORTH['play it through'] * near(state) + waiting(whole);
    found.push(candidate(state, whole, 'play it through', worth, () => say.playThrough(state)));
  }
  return found;
}

/** A part of one measure needs no joining; one too long for a turn is joined by its phrases. */
function isJoined(state: TuneState, part: Part): boolean {
  if (part.link.measures.length < 2 || part.standing.isSettled) return true;
  return isTooLong(state, part) && openPhrases(state, part).length === 0;
}

function isTooLong(state: TuneState, part: Part): boolean {
  return leastMinutesOf(part.link, startOf(part, state.goal)) > MOST_MINUTES;
}

function openPhrases(state: TuneState, part: Part): LinkState[] {
  return phrasesOf(state, part.link, PHRASE_MEASURES)
    .map((link) => state.look(link))
    .filter(({ standing }) => !standing.isSettled);
}

function partIsReady(state: TuneState, { link }: Part): boolean {
  const links = [
    ...link.figures.map((place) => state.figures[place]!),
    ...link.seams.map((place) => state.seams[place]!),
  ];
  return link.measures.length > 1 && links.every(({ standing }) => standing.isSettled);
}

/** The part, or its phrases when one pass of the part is longer than a turn. */
function joinPart(state: TuneState, part: Part): Candidate[] {
  const worth = WORTH['join the part'] * near(state) + waiting(part);
  if (!isTooLong(state, part)) {
    return [candidate(state, part, 'join the part', worth, () => say.joinPart(state, part))];
  }
  return openPhrases(state, part).map((phrase, index) =>
    candidate(state, phrase, 'join the part', worth - 0.05 * index, () =>
      say.joinPhrase(part, PHRASE_MEASURES),
    ),
  );
}

function newGround(state: TuneState, now: Moment): Candidate[] {
  const fresh = state.figures.filter((figure) => !played(figure));
  const inWork = state.figures.filter(
    (figure) => played(figure) && !figure.standing.isSettled && figure.standing.days < LONG_IN_WORK_DAYS,
  );
  if (fresh.length > 0) {
    const room = Math.min(NEW_AT_ONCE, IN_WORK_AT_ONCE - inWork.length);
    const base = state.begun ? WORTH['new figure'] + idle(state) : newTuneWorth(state, now);
    return fresh
      .slice(0, Math.max(0, room))
      .map((figure, rank) =>
        candidate(state, figure, 'new figure', base - 0.05 * rank, () => say.newFigure(state, figure)),
      );
  }
  return state.linksSettled && state.next ? nextLayer(state, state.next) : [];
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
        say.nextLayer(state, next, link),
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
    say.rusty(state, item, worst, now),
  );
  if (refresh.leastMinutes <= longestTurn(item.link.passage.kind)) return [refresh];
  // a tune too long for one turn is refreshed where it has faded most
  const link = mostFaded([...seams, ...figures]);
  return link
    ? [candidate(state, link, 'rusty', rustyWorth(link), () => say.rusty(state, link, link, now))]
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
