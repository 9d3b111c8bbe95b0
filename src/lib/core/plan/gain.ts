import type { LinkState, TuneState } from './tune-state';

/**
 * Where the links of a tune stand on the way to its goal. A link is named by its place: the figures of the layer in
 * their order, then its seams.
 */
export interface Course {
  goal: number;
  /** ln of each link's settled tempo, or of what is expected of it. */
  at: Float64Array;
  /** What bringing a link on is worth; sums to 1. The further a link lags, the more of the tune waits for it. */
  weight: Float64Array;
}

/** What a stretch of a tune is made of: the links that one pass of it plays, repeats included. */
export interface Played {
  links: readonly number[];
  beats: number;
}

/** A tune of n links comes out clean 17 times in 20 only where each of them holds at more than that: this much above the goal. */
const ABOVE_GOAL = 0.14;
/** Per unit of log tempo: a link that lags by 7 % more counts double. */
const LAG_WEIGHT = 10;
/** How the gain of a pass falls off away from a link's settled tempo, in log tempo (challenge point: Guadagnoli & Lee 2004). */
const REACH = 0.25;
/** What a missed pass brings beside a clean one (Duke, Simmons & Cash 2009 count the clean ones). */
const MISS_GAIN = 0.3;
/** What every doubling of the links adds: a place is learned best where it has to hold (Chaffin & Logan 2006). */
const CONTEXT = 0.3;
/** The usual steepness of the chance of a clean pass, per unit of log tempo. */
const SLOPE = 14;
const SETTLED_LOGIT = Math.log(0.85 / 0.15);
/** A drill of several links moves about the tempo at which it comes out clean this often. */
const DRILLED_CHANCE = 0.6;
/** The usual standard deviation of a tune's links about their middle, log tempo: what is less sure than that is drawn to the middle. */
const SPREAD = 0.2;
/** An 80 % interval in standard deviations. */
const Z80 = 2.563;
/** What an unplayed link is expected to hold, over where a drill of it would begin. */
const OVER_COMFORTABLE = 1.12;
/** Between passes: the breath and the mark. */
export const BETWEEN_PASSES_SEC = 3;

export function courseOf({ figures, seams, goal }: Pick<TuneState, 'figures' | 'seams' | 'goal'>): Course {
  const links: LinkState[] = [...figures, ...seams];
  const found = links.map(({ tempo, standing: { settled, comfortable } }) => ({
    at: Math.log(tempo > 0 ? tempo : comfortable * OVER_COMFORTABLE),
    sure: SPREAD ** 2 / (SPREAD ** 2 + (settled ? Math.log(settled.high / settled.low) / Z80 : SPREAD) ** 2),
  }));
  const all = found.reduce((sum, { sure }) => sum + sure, 0);
  const middle = found.reduce((sum, { at, sure }) => sum + sure * at, 0) / all;
  const at = Float64Array.from(found, ({ at, sure }) => middle + sure * (at - middle));
  const target = Math.log(goal) + ABOVE_GOAL;
  const furthest = at.reduce((most, here) => Math.max(most, target - here), -Infinity);
  const weight = at.map((here) => Math.exp(LAG_WEIGHT * (target - here - furthest)));
  const sum = weight.reduce((all, one) => all + one, 0);
  return { goal, at, weight: weight.map((one) => one / sum) };
}

/** How likely a pass is clean at a tempo, by its links alone. `tempo` in ln. */
function chanceOf({ at }: Course, links: readonly number[], tempo: number): number {
  let chance = 1;
  for (const link of links) chance *= holds(tempo - at[link]!);
  return chance;
}

function holds(above: number): number {
  return 1 / (1 + Math.exp(SLOPE * above - SETTLED_LOGIT));
}

/** ln of the tempo about which a drill of the stretch moves, at most a step above the goal. */
export function drillTempo(course: Course, { links }: Played): number {
  return Math.min(tempoForChance(course, links, DRILLED_CHANCE), Math.log(1.08 * course.goal));
}

/** ln of the tempo at which a pass of these links is clean with a chance of `wanted`, 0.6 or more; to half a percent. */
export function tempoForChance(course: Course, links: readonly number[], wanted: number): number {
  const slowest = links.reduce((least, link) => Math.min(least, course.at[link]!), Infinity);
  let [low, high] = [slowest - 0.5, slowest + 0.1];
  for (let halving = 0; halving < 7; halving++) {
    const middle = (low + high) / 2;
    if (chanceOf(course, links, middle) >= wanted) low = middle;
    else high = middle;
  }
  return low;
}

/** What a minute of passes about a tempo (ln) is expected to bring, in no unit: compared with other stretches of the tune only. */
export function gainAMinute({ at, weight }: Course, { links, beats }: Played, tempo: number): number {
  let gain = 0;
  for (const link of links) {
    const above = tempo - at[link]!;
    const clean = holds(above);
    gain += weight[link]! * Math.exp(-((above / REACH) ** 2) / 2) * (clean + MISS_GAIN * (1 - clean));
  }
  const inContext = 1 + CONTEXT * Math.log2(links.length);
  return (60 * gain * inContext) / ((60 * beats) / Math.exp(tempo) + BETWEEN_PASSES_SEC);
}
