import type { Moment } from '../time/moment';
import type { Tune } from '../tune/tune';
import { isNew, RETUNE_MINUTES, type Chosen } from './choose';
import { isAtGoal, TUNES_IN_THE_MAKING, type Candidate } from './candidates';
import type { Plan } from './plan';
import type { TuneState } from './tune-state';
import { say } from '../../texts/plan';
import { agoWords } from '../time/date-words';
import { tempoWord } from './words';

export interface LeftOutFacts {
  tunes: readonly Tune[];
  states: ReadonlyMap<string, TuneState>;
  items: readonly Chosen[];
  candidates: readonly Candidate[];
  skipped: ReadonlySet<string>;
  /** The tuning that the banjo is in, or ends up in first. */
  tuning: string | null;
  minutes: number;
  now: Moment;
  gentle: boolean;
  /** How many tunes are in the making. */
  making: number;
  /** The tunes of which something was played for the first time today. */
  begun: ReadonlySet<string>;
}

/** Why each tune that is not in the plan waits. */
export function leftOut(facts: LeftOutFacts): Plan['leftOut'] {
  const inPlan = new Set(facts.items.map(({ state }) => state.tune.id));
  const byTune = new Map<string, Candidate[]>();
  for (const item of facts.candidates) {
    const list = byTune.get(item.state.tune.id);
    if (list) list.push(item);
    else byTune.set(item.state.tune.id, [item]);
  }
  return facts.tunes
    .filter(({ id }) => !inPlan.has(id))
    .map(({ id, title }) => ({
      tuneId: id,
      title,
      why: why(facts, facts.states.get(id), byTune.get(id) ?? []),
    }));
}

function why(facts: LeftOutFacts, state: TuneState | undefined, candidates: readonly Candidate[]): string {
  const { tuning, minutes, now, skipped } = facts;
  if (!state) return say.noMeasures;
  const first = facts.items[0];
  if (!state.begun && facts.making >= TUNES_IN_THE_MAKING) {
    return say.enoughInTheMaking(facts.making);
  }
  if (!state.begun && facts.begun.size > 0 && candidates.length === 0) {
    const [today] = [...facts.begun].flatMap((id) => facts.states.get(id)?.tune.title ?? []);
    return say.oneNewThing(today ?? null);
  }
  if (candidates.length === 0) return withoutCandidates(facts, state, now);
  const open = candidates.filter(({ link }) => !skipped.has(link.key));
  if (open.length === 0) return say.youSaidNotToday;
  if (open.every(({ leastMinutes }) => leastMinutes > minutes)) {
    const least = Math.min(...open.map(({ leastMinutes }) => leastMinutes));
    return say.passTooLong(least, minutes);
  }
  if (open.every(isNew) && !state.begun) {
    const begun = facts.items.find(isNew);
    return begun ? say.otherNewFirst(begun.state.tune.title) : say.begunFirst;
  }
  if (tuning !== null && state.tuning !== tuning) {
    return say.otherTuning(state.tuning, RETUNE_MINUTES, minutes);
  }
  return waits(state, first);
}

function waits(state: TuneState, first: Chosen | undefined): string {
  const tempo = slowestTempo(state);
  return say.canWait(
    tempo === 0 ? null : tempoWord(tempo),
    tempoWord(state.goal),
    first?.state.tune.title ?? null,
  );
}

function withoutCandidates({ gentle, items }: LeftOutFacts, state: TuneState, now: Moment): string {
  if (state.begun && !gentle && !isAtGoal(state)) return waits(state, items[0]);
  if (gentle && !state.linksSettled) return say.wouldBeAPush;
  const last = [state.whole, ...state.parts, ...state.figures, ...state.seams]
    .map(({ standing }) => standing.lastPlayed)
    .filter((moment) => moment !== null)
    .reduce<Moment | null>((latest, moment) => (latest && latest.at >= moment.at ? latest : moment), null);
  return last ? say.isFresh(tempoWord(slowestTempo(state)), agoWords(last, now)) : say.tooLongForATurn;
}

function slowestTempo({ figures, seams }: TuneState): number {
  const tempos = [...figures, ...seams].map(({ tempo }) => tempo).filter((tempo) => tempo > 0);
  return tempos.length > 0 ? Math.min(...tempos) : 0;
}
