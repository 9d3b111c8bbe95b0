/**
 * Law 3: figures come quickly, seams slowly; a seam grows when it is played, and mostly when it is played with what
 * leads into it and what follows. A figure that the tune continues in more ways than one makes its seams harder.
 *
 * Sources for the shape:
 * - Chaffin & Imreh 1997, Thinking & Reasoning 3, 315-336: practice starts and stops at formal boundaries; recall
 *   best at section BEGINNINGS [looked up: abstract].
 * - Chaffin & Logan 2006, Adv Cogn Psych 2, 113-130: landmarks as retrieval cues [looked up: abstract]; extra time
 *   spent on "switches", where one passage continues differently [looked up: review of Chaffin, Imreh & Crawford 2002].
 * - The gain of one link: Heathcote, Brown & Mewhort 2000 [looked up: abstract], as in law 1 but with no night.
 * Sizes are ours, drawn per seed.
 */
import { challenge, leftAfter, ogive } from './curves.mjs';
import { DAY, drawWays, learnerOf } from './learner.mjs';
import { randomFrom } from './random.mjs';

/** @typedef {{ isSeam: boolean, start: number, plateau: number, rate: number, skill: number, lastAt: number }} State */

const HOUR = DAY / 24;
const FORGETTING_DAYS = 10;

/** @param {number | string} seed @returns {import('./learner.mjs').Law<State>} */
function draw(seed) {
  const random = randomFrom(seed, 'hard-seams');
  const figureRate = random.scaled(0.016, 0.25);
  const seamRate = random.scaled(0.0075, 0.25);
  const reach = random.between(0.36, 0.5);
  const bare = random.between(0.3, 0.45);
  const width = random.between(0.06, 0.09);
  const easySide = random.between(0.14, 0.24);
  const hardSide = random.between(0.09, 0.14);
  const figureForgetting = random.between(0.02, 0.05);
  const seamForgetting = random.between(0.05, 0.1);

  /** @param {State} state @param {number} at */
  const skillAt = ({ isSeam, start, skill, lastAt }, at) => {
    const power = isSeam ? seamForgetting : figureForgetting;
    return start + (skill - start) * leftAfter((at - lastAt) / DAY, FORGETTING_DAYS, power);
  };

  return {
    ways: drawWays(random, {
      spread: random.between(0.13, 0.19),
      seamEase: -random.between(0.08, 0.18),
      seamSpread: random.between(0.14, 0.2),
      switchCost: random.between(0.08, 0.16),
    }),
    isTempoSpecific: false,
    meet({ isSeam, goal, start, hardness, random: own }) {
      const plateau = Math.max(goal + 0.26, goal + reach - 0.25 * hardness);
      const rate = own.scaled(isSeam ? seamRate : figureRate, 0.2);
      return { isSeam, start, plateau, rate, skill: start, lastAt: -Infinity };
    },
    copy: (state) => ({ ...state }),
    level: (state, { at }) => skillAt(state, at),
    chance: (level, _state, _pass, tempo) => ogive(tempo - level, width),
    practise(level, state, pass, isMissed, place) {
      if (pass.at - state.lastAt > HOUR) {
        state.skill = skillAt(state, pass.at);
        state.lastAt = pass.at;
      }
      // a seam at place 2k+1 joins the figures k and k+1
      const last = 2 * (pass.figures.length - 1);
      const sides = (place > 1 ? 1 : 0) + (place < last - 1 ? 1 : 0);
      const surroundings = state.isSeam ? bare + ((1 - bare) * sides) / 2 : 1;
      const suits = challenge(pass.tempo - level, easySide, hardSide);
      const gain = state.rate * surroundings * suits * pass.gain * (isMissed ? 0.35 : 1);
      state.skill += gain * Math.max(0, state.plateau - state.skill);
    },
    lapse: () => 0,
    sleep() {
      // this law has no nights
    },
  };
}

/** @param {import('./learner.mjs').LearnerOptions} options */
export default function ({ seed, tunes }) {
  return learnerOf({ seed, tunes }, draw(seed));
}
