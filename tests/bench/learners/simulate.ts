import { firstLayer } from '$lib/core/tune/places';
import type { LearnerFactory } from './contract';
import { POLICIES } from './policies/index';
import { Planner } from './policies/planner';
import { Practice, type PlayedTune } from './practice';
import { madeTunes } from './tunes';

/** A book to practise, and when to stop. */
export const SCENARIOS = ['one tune', 'five tunes', 'repertoire'] as const;
export type Scenario = (typeof SCENARIOS)[number];

export interface Run {
  learnerFile: string;
  policy: string;
  scenario: Scenario;
  seed: number;
  days: number;
  minutes: number;
}

export interface RunResult {
  /** Minutes practised until every tune was ready at its goal; all of them when it never was. */
  minutes: number;
  reached: boolean;
  /** Of the tunes, ready within 10 % of their goal at the end. */
  share: number;
  retunesASitting: number;
  /** Whole-tune estimates at the end of sittings, and how many of their 80 % intervals held the truth. */
  intervals: number;
  held: number;
}

const TUNES: Record<Scenario, number> = { 'one tune': 1, 'five tunes': 5, repertoire: 30 };
/** Five tunes take longer than one; a repertoire is looked at after half a year. */
const REPERTOIRE_DAYS = 180;
const FIVE_TUNES_DAYS = 3;
const NEARLY = 0.9;

export function canFork(factory: LearnerFactory): boolean {
  return factory({ seed: 1, tunes: [] }).fork !== undefined;
}

export function simulate(factory: LearnerFactory, run: Run): RunResult {
  const { policy: name, scenario, seed, days, minutes } = run;
  const tunes = madeTunes(TUNES[scenario], seed);
  const isDone = (now: Practice) =>
    scenario !== 'repertoire' && now.tunes.every((tune) => now.ready(tune) >= tune.goal);
  const practice: Practice = new Practice((given) => factory({ seed, tunes: given }), tunes, minutes, isDone);
  const policy = POLICIES[name]!(practice, seed);
  const lastDay = { 'one tune': days, 'five tunes': FIVE_TUNES_DAYS * days, repertoire: REPERTOIRE_DAYS }[
    scenario
  ];
  let [intervals, held] = [0, 0];
  for (let day = 0; day < lastDay && !practice.done; day++) {
    policy.sit(practice);
    if (policy instanceof Planner) {
      for (const tune of practice.tunes) {
        const holds = holdsTruth(policy, practice, tune);
        intervals += Number(holds !== null);
        held += Number(holds === true);
      }
    }
    practice.sleep();
  }
  const nearly = practice.tunes.filter((tune) => practice.ready(tune) >= NEARLY * tune.goal);
  return {
    minutes: practice.spentMs / 60_000,
    reached: practice.done,
    share: nearly.length / practice.tunes.length,
    retunesASitting: practice.retunes / Math.max(1, practice.sittings),
    ...{ intervals, held },
  };
}

/** `null` when the whole tune has not been played. */
function holdsTruth({ standings }: Planner, practice: Practice, played: PlayedTune): boolean | null {
  const { tune } = played;
  const passage = { kind: 'tune' as const, tuneId: tune.id, layerId: firstLayer(tune).id };
  const { settled } = standings.of(passage);
  if (!settled) return null;
  const truth = practice.ready(played);
  return settled.low <= truth && truth <= settled.high;
}
