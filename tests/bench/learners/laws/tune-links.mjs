/** The figures and seams of one tune, as a learner has them. */
import { randomFrom } from './random.mjs';

/**
 * @template State
 * @typedef {{ state: State, plays: number, isPlayedToday: boolean }} Link
 */

/** @param {import('./learner.mjs').LearnerTune} tune @param {string} figure */
function waysOn(tune, figure) {
  const { figures } = tune;
  return new Set(figures.flatMap((id, index) => (id === figure ? (figures[index + 1] ?? []) : []))).size;
}

/**
 * The links of one tune, met when first asked for; what a link is like depends on the seed, the tune and its name alone.
 * @template State
 * @param {import('./learner.mjs').LearnerTune} tune
 * @param {number | string} seed
 * @param {import('./learner.mjs').Law<State>} law
 */
export function openTune(tune, seed, law) {
  const { ways } = law;
  const goal = Math.log(tune.goal);
  const hardTune = 0.06 * randomFrom(seed, tune.id).normal();
  /** @type {Map<string, { link: Link<State>, hardness: number, seams: Map<string, Link<State>> }>} */
  const met = new Map();

  /** @param {Omit<import('./learner.mjs').NewLink, 'goal' | 'start'>} link @returns {Link<State>} */
  const meet = (link) => {
    const start = goal + ways.skill - hardTune - link.hardness;
    return { state: law.meet({ ...link, goal, start }), plays: 0, isPlayedToday: false };
  };
  /** @param {string} id */
  const figure = (id) => {
    let known = met.get(id);
    if (!known) {
      const random = randomFrom(seed, tune.id, id);
      const hardness = ways.spread * random.normal();
      const link = meet({ isSeam: false, isSwitch: false, hardness, random });
      met.set(id, (known = { link, hardness, seams: new Map() }));
    }
    return known;
  };
  /** @param {string} from @param {string} to */
  const seam = (from, to) => {
    const left = figure(from);
    let known = left.seams.get(to);
    if (!known) {
      const random = randomFrom(seed, tune.id, from, to);
      const isSwitch = waysOn(tune, from) > 1;
      const between = (left.hardness + figure(to).hardness) / 2;
      const own = ways.seamSpread * random.normal() - ways.seamEase + (isSwitch ? ways.switchCost : 0);
      left.seams.set(to, (known = meet({ isSeam: true, isSwitch, hardness: between + own, random })));
    }
    return known;
  };
  /**
   * @param {readonly string[]} figures
   * @param {Link<State>[]} into
   */
  const linksOf = (figures, into) => {
    into.length = 0;
    let before;
    for (const id of figures) {
      if (before !== undefined) into.push(seam(before, id));
      into.push(figure(id).link);
      before = id;
    }
    return into;
  };
  return { tune, goal, whole: linksOf(tune.figures, []), linksOf };
}
