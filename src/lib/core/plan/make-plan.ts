import type { Hands } from '../practice/records';
import { passageLabels, passageName } from '../tune/passage-name';
import type { Tune } from '../tune/tune';
import { tuningName } from '../tune/tuning';
import {
  candidate,
  candidatesOf,
  isInTheMaking,
  LEAST_MINUTES,
  TUNES_IN_THE_MAKING,
  type Candidate,
} from './candidates';
import { choose, isNew, RETUNE_MINUTES, type Chosen } from './choose';
import { leftOut } from './left-out';
import {
  PLAN_MINUTES_MAX,
  PLAN_MINUTES_MIN,
  type Plan,
  type PlanBreak,
  type PlanItem,
  type PlanRequest,
} from './plan';
import { yourChoice } from './reasons';
import { tuneState, type LinkState, type StandingSource, type TuneState } from './tune-state';

/** A break is due after 25 to 30 minutes and takes about five (SCIENCE.md section 5: convention, not trial-tested). */
const STRETCH_MINUTES = 30;
const BREAK_AFTER_MINUTES = 25;
const BREAK_MINUTES = 5;

/** Tired or sore hands get less: minutes at most, and how much slower a drill begins. */
const GENTLER: Record<Hands, { most: number; start: number; caution: string | null }> = {
  fresh: { most: PLAN_MINUTES_MAX, start: 1, caution: null },
  stiff: { most: PLAN_MINUTES_MAX, start: 0.95, caution: null },
  tired: {
    most: 15,
    start: 0.9,
    caution: 'Your hands are tired, so this is short and slow. Stop when it stops being easy.',
  },
  sore: {
    most: 5,
    start: 0.8,
    caution:
      'Stop if it hurts, tingles or goes numb. If it persists, see a licensed clinician. A day off costs little.',
  },
};

export interface PlanInput {
  tunes: readonly Tune[];
  standings: StandingSource;
  request: PlanRequest;
}

/**
 * What to practise now, and why: the same tunes, standings and request give the same plan. Throws a RangeError when
 * the minutes are not within 5 to 120 or the moment is not a time.
 */
export function makePlan({ tunes, standings, request }: PlanInput): Plan {
  checkRequest(request);
  const { now, hands } = request;
  const gentler = GENTLER[hands];
  const minutes = Math.min(Math.floor(request.minutes), gentler.most);
  const active = tunes.filter(({ archived, deletedAt }) => !archived && deletedAt === null);
  const states = active.map((tune) => tuneState(tune, standings, now)).filter((state) => state !== null);
  const gentle = hands === 'tired' || hands === 'sore';
  const making = states.filter(isInTheMaking).length;
  const found = states.flatMap((state) =>
    state.begun || making < TUNES_IN_THE_MAKING ? candidatesOf(state, now) : [],
  );
  const candidates = gentle ? withoutPushing(found) : found;
  const skipped = new Set(request.skip ?? []);
  const pool = candidates.filter(({ link }) => !skipped.has(link.key));
  const sure = pinnedCandidates(states, request, found);
  const inHand = request.tuning && tuningName(request.tuning);
  const breaksAtMost = Math.ceil(minutes / STRETCH_MINUTES) - 1;
  const room = Math.max(Math.min(minutes, STRETCH_MINUTES), minutes - breaksAtMost * BREAK_MINUTES);
  const ordered = choose({
    ...{ pool, sure, states, skipped, inHand },
    minutes: room,
    stiff: hands === 'stiff',
  });
  const { items, breaks, total } = withBreaks(
    ordered.map((item) => slowedBy(item, gentler.start, gentle)),
    inHand,
    minutes >= room + BREAK_MINUTES ? breaksAtMost : 0,
  );
  const tuning = inHand ?? items[0]?.state.tuning ?? null;
  const byId = new Map(states.map((state) => [state.tune.id, state]));
  return {
    items: items.map(planItem),
    minutes: total,
    ...{ breaks, caution: gentler.caution },
    leftOut: leftOut({
      tunes: active,
      states: byId,
      items,
      candidates,
      skipped,
      tuning,
      minutes,
      now,
      gentle,
      making,
    }),
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

/** What is left for hands that ask for less: nothing new and nothing faster, unless there is nothing else at all. */
function withoutPushing(found: readonly Candidate[]): Candidate[] {
  const easy = found.filter((item) => !isNew(item));
  return (easy.length > 0 ? easy : found).map((item) => ({
    ...item,
    minutes: Math.max(item.leastMinutes, LEAST_MINUTES),
    // an easy plan refreshes before it pushes
    worth: item.reasonKind === 'rusty' ? item.worth + 0.5 : item.worth,
  }));
}

/** The starts and targets of tired or sore hands: slower, and never above where the drill would have begun. */
function slowedBy(item: Chosen, factor: number, gentle: boolean): Chosen {
  if (factor === 1) return item;
  const least = item.leastMinutes;
  const slowest = Math.ceil(item.link.beats / Math.max(1, item.given - 0.05));
  const startTempo = Math.max(
    20,
    Math.min(item.startTempo, Math.max(slowest, Math.round(item.startTempo * factor))),
  );
  return {
    ...item,
    leastMinutes: least,
    startTempo,
    towardTempo: gentle ? item.startTempo : item.towardTempo,
  };
}

function pinnedCandidates(
  states: readonly TuneState[],
  { pinned = [] }: PlanRequest,
  found: readonly Candidate[],
): Candidate[] {
  return pinned.flatMap((key) => {
    const known = found.find(({ link }) => link.key === key);
    if (known) return [known];
    for (const state of states) {
      const item = linksOf(state).find(({ link }) => link.key === key);
      if (item) return [candidate(state, item, 'your choice', 1, () => yourChoice(item, state.goal))];
    }
    return [];
  });
}

function linksOf(state: TuneState): LinkState[] {
  return [...state.figures, ...state.seams, ...state.parts, state.whole];
}

/** The items with their rests and minutes in all. What would make a stretch too long, with no rest left to give, is cut. */
function withBreaks(
  items: readonly Chosen[],
  inHand: string | null,
  atMost: number,
): { items: Chosen[]; breaks: PlanBreak[]; total: number } {
  const kept: Chosen[] = [];
  const breaks: PlanBreak[] = [];
  let [stretch, total] = [0, 0];
  let tuning = inHand ?? items[0]?.state.tuning;
  for (const item of items) {
    const next = item.given + (item.state.tuning === tuning ? 0 : RETUNE_MINUTES);
    const due =
      stretch + next > STRETCH_MINUTES || (stretch >= BREAK_AFTER_MINUTES && breaks.length < atMost);
    if (due && breaks.length === atMost) break;
    if (due) {
      breaks.push({ afterItem: kept.length - 1, minutes: BREAK_MINUTES });
      total += BREAK_MINUTES;
      stretch = 0;
    }
    tuning = item.state.tuning;
    stretch += next;
    total += next;
    kept.push(item);
  }
  return { items: kept, breaks, total };
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
