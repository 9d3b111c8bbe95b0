/**
 * Law 1: each link gains exponentially towards its own plateau; part of a day's gain shows only after a night, which
 * also adds to it; time away costs little and slowly, and comes back fast.
 *
 * Sources for the shape:
 * - Heathcote, Brown & Mewhort 2000, "The power law repealed", Psychon Bull Rev 7, 185-207: exponential fits
 *   individuals better in ALL unaveraged sets [looked up: abstract].
 * - Walker et al. 2002, Neuron 35, 205-211: +20 % speed overnight vs ~2 % over a waking 12 h [looked up: abstract,
 *   Harvard Gazette]; dissent: Sheth 2008, PLoS ONE 3 e3190 [looked up: abstract].
 * - Simmons 2012, J Res Music Educ 59, 357-368: gaps of 5 min, 6 h, 24 h; accuracy gained in session 2 only with
 *   24 h [looked up: abstract]. Hence the limit on what one night can take in.
 * - Savion-Lemieux & Penhune 2005, Exp Brain Res: motor retention slow; only the 8-week group lost accuracy
 *   [looked up: abstract].
 * - Attention thinner over a long stretch: ours, after Drake & Palmer 2000, Cognition 74, 1-32: planning range grows
 *   with skill [looked up: abstract].
 * Sizes are ours, drawn per seed.
 */
import { challenge, earlyTrouble, leftAfter } from './curves.mjs';
import { DAY, drawWays, learnerOf } from './learner.mjs';
import { randomFrom } from './random.mjs';

/** @typedef {{ start: number, plateau: number, rate: number, settled: number, today: number, best: number, lastAt: number }} State */

const HOUR = DAY / 24;
const FORGETTING_DAYS = 14;

/** @param {number | string} seed @returns {import('./learner.mjs').Law<State>} */
function draw(seed) {
  const random = randomFrom(seed, 'exponential-overnight');
  const rate = random.scaled(0.013, 0.25);
  const reach = random.between(0.38, 0.52);
  const shown = random.between(0.3, 0.55);
  const bonus = random.between(1.1, 1.3);
  const nightLimit = random.between(0.09, 0.14);
  const forgetting = random.between(0.03, 0.08);
  const width = random.between(0.035, 0.055);
  const easySide = random.between(0.13, 0.22);
  const hardSide = random.between(0.08, 0.14);
  const thin = random.between(0.05, 0.1);

  /** @param {State} state @param {number} at */
  const settledAt = (state, at) => {
    const days = (at - state.lastAt) / DAY;
    return state.start + (state.settled - state.start) * leftAfter(days, FORGETTING_DAYS, forgetting);
  };

  return {
    ways: drawWays(random),
    isTempoSpecific: false,
    meet({ goal, start, hardness, random: own }) {
      const plateau = Math.max(goal + 0.26, goal + reach - 0.3 * hardness);
      const slower = Math.exp(-0.6 * hardness);
      const best = start;
      return {
        start,
        plateau,
        rate: own.scaled(rate, 0.2) * slower,
        settled: start,
        today: 0,
        best,
        lastAt: -Infinity,
      };
    },
    copy: (state) => ({ ...state }),
    level: (state, { at }) => settledAt(state, at) + shown * state.today,
    chance: (level, _state, _pass, tempo) => earlyTrouble(tempo - level, width),
    practise(level, state, pass, isMissed) {
      if (pass.at - state.lastAt > HOUR) {
        state.settled = settledAt(state, pass.at);
        state.lastAt = pass.at;
      }
      const reached = state.settled + state.today;
      // what was once known comes back faster
      const again = reached < state.best ? 2 : 1;
      // a long stretch asks for planning ahead, and leaves less attention for each measure
      const attention = (pass.gain * (isMissed ? 0.4 : 1)) / (1 + thin * (pass.figures.length - 1));
      const suits = challenge(pass.tempo - level, easySide, hardSide);
      state.today += state.rate * again * attention * suits * Math.max(0, state.plateau - reached);
    },
    lapse: () => 0,
    sleep(state) {
      const kept = nightLimit * (1 - Math.exp((-state.today * bonus) / nightLimit));
      state.settled = Math.min(state.plateau, state.settled + kept);
      state.best = Math.max(state.best, state.settled);
      state.today = 0;
    },
  };
}

/** @param {import('./learner.mjs').LearnerOptions} options */
export default function ({ seed, tunes }) {
  return learnerOf({ seed, tunes }, draw(seed));
}
