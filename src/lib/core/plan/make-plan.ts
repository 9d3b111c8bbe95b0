import { say } from '../../texts/plan';
import type { Hands } from '../practice/records';
import { passageLabels, passageName } from '../tune/passage-name';
import type { PassageKey } from '../tune/passage';
import type { Tune } from '../tune/tune';
import { tuningName } from '../tune/tuning';
import { isInTheMaking, mostPromising, TUNES_IN_THE_MAKING, type Candidate } from './candidates';
import { isComingBack, welcomeBack } from './coming-back';
import { choose, isLong, isNew, RETUNE_MINUTES, type Chosen } from './choose';
import { areGentle, cautionFor, GENTLER, slowedFor, withoutPushing } from './hands';
import { leftOut } from './left-out';
import { askedSentence, begunToday, oneMoreNew, oneNewThing } from './new-things';
import { inOwnOrder } from './own-order';
import { pinnedCandidates } from './pinned';
import { PLAN_MINUTES_MAX, PLAN_MINUTES_MIN, type Plan, type PlanItem, type PlanRequest } from './plan';
import { restsIn, withRests, type Rested, type Rests } from './rests';
import { tuneCase } from './kept-states';
import type { StandingSource, TuneState } from './tune-state';

export interface PlanInput {
  tunes: readonly Tune[];
  standings: StandingSource;
  request: PlanRequest;
}

/**
 * What to practise now, and why: the same tunes, standings and request give the same plan. Throws a RangeError when
 * the minutes are not within 5 to 120 or the moment is not a time.
 */
export function makePlan(input: PlanInput): Plan {
  const scene = sceneOf(input);
  const { request, inHand, minutes } = scene;
  const { chosen, asked } = withNewThing(scene, chooseFrom(scene, scene.pinned));
  const { items, breaks, total } = fitted(scene, chosen);
  const keys = new Set(items.map(({ link }) => link.key));
  return {
    items: items.map(planItem),
    minutes: total,
    ...{ breaks, caution: cautionFor(request.hands), welcome: welcomeBack(scene.states) },
    asked: asked && (typeof asked === 'string' ? asked : askedSentence(asked, keys.has(asked.link.key))),
    leftOut: leftOut({
      tunes: scene.active,
      states: new Map(scene.states.map((state) => [state.tune.id, state])),
      ...{ items, minutes, candidates: scene.candidates, skipped: scene.skipped, making: scene.making },
      ...{ now: request.now, tuning: inHand ?? items[0]?.state.tuning ?? null, gentle: scene.gentle },
      begun: scene.begun,
    }),
  };
}

/** Up to four other passages that could take the place of a planned one: about as long, each with its reason. */
export function alternatives(input: PlanInput, key: PassageKey): PlanItem[] {
  const plan = makePlan(input);
  const place = plan.items.find((item) => item.key === key);
  if (!place) return [];
  const scene = sceneOf(input);
  const taken = new Set([...plan.items.map((item) => item.key), ...(input.request.drilled ?? [])]);
  const unused = Math.max(0, scene.minutes - plan.minutes);
  const room = place.minutes + Math.min(unused, 2);
  const tunings = new Set(plan.items.map(({ tuning }) => tuning));
  const newTune = plan.items.find((item) => item !== place && isNew(item))?.tuneId;
  const open = scene.candidates
    .filter((item) => {
      const { link, leastMinutes, state } = item;
      const retune = tunings.has(state.tuning) ? 0 : RETUNE_MINUTES;
      const isFree = !taken.has(link.key) && !scene.skipped.has(link.key);
      const isSecondNew = isNew(item) && newTune !== undefined && newTune !== state.tune.id;
      return isFree && !isSecondNew && leastMinutes + retune <= room;
    })
    .sort((a, b) => b.worth - a.worth || (a.link.key < b.link.key ? -1 : 1));
  return varied(open).map((item) => {
    const retune = tunings.has(item.state.tuning) ? 0 : RETUNE_MINUTES;
    const given = Math.max(item.leastMinutes, Math.min(item.minutes, room - retune));
    return planItem(slowedFor(scene.pace, { ...item, given }));
  });
}

const ALTERNATIVES = 4;
const OF_ONE_TUNE = 2;

/** The first four, no more than two of one tune while others wait. */
function varied(items: readonly Candidate[]): Candidate[] {
  const ofTune = new Map<string, number>();
  const [first, later]: [Candidate[], Candidate[]] = [[], []];
  for (const item of items) {
    const { id } = item.state.tune;
    const count = (ofTune.get(id) ?? 0) + 1;
    ofTune.set(id, count);
    (count <= OF_ONE_TUNE ? first : later).push(item);
  }
  return [...first, ...later].slice(0, ALTERNATIVES);
}

/** Everything that a plan is chosen from. */
interface Scene extends Rests {
  request: PlanRequest;
  minutes: number;
  inHand: string | null;
  /** The hands ask for less. */
  gentle: boolean;
  isBack: boolean;
  /** The hands to slow down for: after weeks away even fresh ones begin as stiff ones do. */
  pace: Hands;
  active: readonly Tune[];
  states: readonly TuneState[];
  /** How many tunes are in the making. */
  making: number;
  candidates: readonly Candidate[];
  skipped: ReadonlySet<PassageKey>;
  pinned: readonly Candidate[];
  begun: ReadonlySet<string>;
}

function sceneOf({ tunes, standings, request }: PlanInput): Scene {
  checkRequest(request);
  const { now, hands, skip = [], pinned = [] } = request;
  const gentle = areGentle(hands);
  const active = tunes.filter(({ archived, deletedAt }) => !archived && deletedAt === null);
  const cases = active.map((tune) => tuneCase(tune, standings, now));
  const states = cases.map(({ state }) => state).filter((state) => state !== null);
  const making = states.filter(isInTheMaking).length;
  const promising = mostPromising(states);
  const found = cases.flatMap((one) => {
    if (!one.state || !(one.state.begun || making < TUNES_IN_THE_MAKING)) return [];
    return promising.has(one.state) ? one.candidates() : one.withoutStretches();
  });
  const begun = begunToday(states);
  const isBack = isComingBack(states);
  const pace = isBack && hands === 'fresh' ? 'stiff' : hands;
  const skipped = new Set(skip);
  const minutes = Math.min(Math.floor(request.minutes), GENTLER[hands].most);
  const wanted = pinned.filter((key) => !skipped.has(key));
  return {
    ...{ request, minutes, gentle, isBack, pace, active, states, making, skipped, begun },
    ...restsIn(minutes, request.sinceRest ?? 0),
    inHand: request.tuning && tuningName(request.tuning),
    candidates: oneNewThing(gentle || isBack ? withoutPushing(found) : found, begun),
    pinned: pinnedCandidates(wanted, states, found),
  };
}

function checkRequest({ minutes, now }: PlanRequest): void {
  if (!(minutes >= PLAN_MINUTES_MIN && minutes <= PLAN_MINUTES_MAX)) {
    throw new RangeError(`A plan needs ${PLAN_MINUTES_MIN} to ${PLAN_MINUTES_MAX} minutes: saw ${minutes}`);
  }
  if (!Number.isFinite(now.at) || !Number.isFinite(now.offsetMin)) {
    throw new RangeError(`A plan needs a moment: saw ${now.at}, offset ${now.offsetMin}`);
  }
}

/** What was drilled today is worth less each time it comes back: a short passage much less, a part or a whole tune a little. */
const AGAIN = { short: 0.4, long: 0.85 };

/** What was drilled last does not come back at once while there is anything else. */
function chooseFrom(scene: Scene, sure: readonly Candidate[]): Chosen[] {
  const { candidates, states, skipped, inHand, room, request } = scene;
  const drilled = request.drilled ?? [];
  const last = drilled.at(-1) ?? null;
  const open = candidates
    .filter(({ link }) => !skipped.has(link.key))
    .map((item) => lessAgain(item, drilled));
  const fill = (pool: readonly Candidate[]) =>
    choose({
      ...{ pool, sure, states, skipped, inHand, last, minutes: room },
      stiff: request.hands === 'stiff',
    });
  const first = fill(open.filter(({ link }) => link.key !== last));
  return first.length > 0 ? first : fill(open);
}

function lessAgain(item: Candidate, drilled: readonly PassageKey[]): Candidate {
  const times = drilled.filter((key) => key === item.link.key).length;
  if (times === 0) return item;
  const again = isLong(item.link.passage) ? AGAIN.long : AGAIN.short;
  return { ...item, worth: item.worth * again ** times };
}

/** Makes room for one more new thing, when it was asked for; `asked`: what was found, or why nothing was. */
function withNewThing(
  scene: Scene,
  chosen: readonly Chosen[],
): { chosen: readonly Chosen[]; asked: Candidate | string | null } {
  const { request, gentle, pinned, states, begun, skipped, inHand } = scene;
  if (!request.askNew) return { chosen, asked: null };
  if (gentle) return { chosen, asked: say.askedButHands };
  const planned = chosen.filter(isNew);
  const asked = oneMoreNew({ states, planned, begun, skipped, inHand, now: request.now });
  if (typeof asked === 'string') return { chosen, asked };
  return { chosen: chooseFrom(scene, [...pinned, asked, ...planned]), asked };
}

/** The items in their order, with their rests. What the learner wants in is not cut while anything else is left. */
function fitted({ request, inHand, atMost, since, pinned, pace }: Scene, chosen: readonly Chosen[]): Rested {
  const wanted = new Set(pinned.map(({ link }) => link.key));
  let items = inOwnOrder(chosen, request.order ?? []).map((item) => slowedFor(pace, item));
  for (;;) {
    const rested = withRests(items, inHand, { atMost, since });
    const isCut = items.slice(rested.items.length).some(({ link }) => wanted.has(link.key));
    const other = items.findLastIndex(({ link }) => !wanted.has(link.key));
    if (!isCut || other < 0) return rested;
    items = items.toSpliced(other, 1);
  }
}

function planItem(item: Chosen): PlanItem {
  const { state, link, settledTempo, rust, reasonKind, startTempo, towardTempo, given } = item;
  const { tune } = state;
  const { passage, key } = link;
  return {
    ...{ passage, key, kind: passage.kind, tuneId: tune.id, title: tune.title, tuning: state.tuning },
    name: passageName(tune, passage),
    measures: passageLabels(tune, passage),
    goalTempo: state.goal,
    ...{ startTempo, towardTempo, minutes: given, settledTempo, rust, reasonKind, reason: item.reason() },
  };
}
