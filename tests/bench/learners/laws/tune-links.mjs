/** The figures and seams of one tune, as a learner first meets them. */
import { randomFrom } from './random.mjs';

/** @param {import('./learner.mjs').LearnerTune} tune @param {string} figure */
function waysOn(tune, figure) {
  const { figures } = tune;
  return new Set(figures.flatMap((id, index) => (id === figure ? (figures[index + 1] ?? []) : []))).size;
}

/**
 * The links of one tune, each with a number that it gets when first asked for. What a link is like before any practice
 * depends on the seed, the tune and its name alone, so that a learner and its copies share this.
 * @template State
 * @template {object} Own
 * @param {import('./learner.mjs').LearnerTune} tune
 * @param {number | string} seed
 * @param {import('./learner.mjs').Law<State, Own>} law
 */
export function openTune(tune, seed, law) {
  const { ways } = law;
  const goal = Math.log(tune.goal);
  const hardTune = 0.06 * randomFrom(seed, tune.id).normal();
  /** @type {State[]} */
  const unpractised = [];
  /** @type {Map<string, { number: number, hardness: number, seams: Map<string, number> }>} */
  const met = new Map();

  /** @param {Omit<import('./learner.mjs').NewLink, 'goal' | 'start'>} link @returns {number} */
  const meet = (link) => {
    const start = goal + ways.skill - hardTune - link.hardness;
    return unpractised.push(law.meet({ ...link, goal, start })) - 1;
  };
  /** @param {string} id */
  const figure = (id) => {
    let known = met.get(id);
    if (!known) {
      const random = randomFrom(seed, tune.id, id);
      const hardness = ways.spread * random.normal();
      const number = meet({ isSeam: false, isSwitch: false, hardness, random });
      met.set(id, (known = { number, hardness, seams: new Map() }));
    }
    return known;
  };
  /** @param {string} from @param {string} to */
  const seam = (from, to) => {
    const left = figure(from);
    let number = left.seams.get(to);
    if (number === undefined) {
      const random = randomFrom(seed, tune.id, from, to);
      const isSwitch = waysOn(tune, from) > 1;
      const between = (left.hardness + figure(to).hardness) / 2;
      const own = ways.seamSpread * random.normal() - ways.seamEase + (isSwitch ? ways.switchCost : 0);
      left.seams.set(to, (number = meet({ isSeam: true, isSwitch, hardness: between + own, random })));
    }
    return number;
  };
  /**
   * Figure, seam, figure ...
   * @param {readonly string[]} figures
   * @param {number[]} into
   */
  const numbersOf = (figures, into) => {
    into.length = 0;
    let before;
    for (const id of figures) {
      if (before !== undefined) into.push(seam(before, id));
      into.push(figure(id).number);
      before = id;
    }
    return into;
  };
  return {
    tune,
    goal,
    whole: numbersOf(tune.figures, []),
    numbersOf,
    /** @param {number} number */
    unpractised: (number) => /** @type {State} */ (unpractised[number]),
  };
}
