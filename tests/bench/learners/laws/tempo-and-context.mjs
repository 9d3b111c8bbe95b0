/**
 * Law 5: what is practised is a movement at a tempo. It helps at every slower tempo, and less and less above it, so
 * that slow practice alone never becomes fast playing; repeating one stretch over and over looks good at once and
 * teaches less by the next day than coming back to it; and a figure learned alone has yet to find its place in the tune.
 *
 * Sources for the shape:
 * - van Vugt et al. 2014, Exp Brain Res 232: scale movement patterns differ slow vs fast, intermediate tempi are
 *   mixtures [looked up: abstract]. That the slower tempo profits in full is our simplification.
 * - Shea & Morgan 1979, JEP:HLM 5, 179-187 (random practice worse now, better later) [from memory].
 * - Abushanab & Bishara 2013, Memory & Cognition 41, 928-937, n=25 pianists: fixed order faster in practice, RANDOM
 *   faster 2 days later [looked up: abstract]; small or null elsewhere (Czyz et al. 2024 [looked up: abstract]).
 * - Practice in context: Chaffin & Logan 2006, Adv Cogn Psych 2, 113-130 [looked up: abstract].
 * Sizes are ours, drawn per seed.
 */
import { challenge, leftAfter, ogive } from './curves.mjs';
import { DAY, drawWays, learnerOf } from './learner.mjs';
import { randomFrom } from './random.mjs';

/**
 * `skill` is what is settled and `fresh` what today added, both 0 to 1 at each tempo of the grid and never rising
 * with tempo; `context` is the log tempo still lost among neighbours.
 * @typedef {{ start: number, span: number, rate: number, skill: number[], fresh: number[],
 *   context: number, returns: number, lastStretch: number, lastAt: number }} State
 * What was played last, how often in a row, and the running number of stretches.
 * @typedef {{ tuneId: string, figures: readonly string[], repeats: number, stretch: number }} Own
 * @typedef {import('./learner.mjs').Pass} Pass
 */

const HOUR = DAY / 24;
const FORGETTING_DAYS = 15;
/** The grid of tempos, log tempo from the goal. */
const GRID_FROM = -1.5;
const GRID_STEP = 0.15;
const GRID_SIZE = 14;
/** Plain arrays: short typed ones take ten times as long to copy. */
const noGrid = () => Array.from({ length: GRID_SIZE }, () => 0);

/** @param {readonly number[]} values @param {number} index */
const valueAt = (values, index) => /** @type {number} */ (values[index]);

/** @param {readonly number[]} values @param {number} place in steps of the grid */
function between(values, place) {
  const inside = Math.min(GRID_SIZE - 1, Math.max(0, place));
  const left = Math.min(GRID_SIZE - 2, Math.floor(inside));
  return valueAt(values, left) + (inside - left) * (valueAt(values, left + 1) - valueAt(values, left));
}

/** Counts the repeats of one stretch, and the stretches. @param {Pass} pass @param {Own} own */
function countStretch(pass, own) {
  const isSame =
    pass.tuneId === own.tuneId &&
    pass.figures.length === own.figures.length &&
    own.figures.every((id, index) => id === pass.figures[index]);
  own.repeats = isSame ? own.repeats + 1 : 0;
  if (!isSame) {
    own.stretch++;
    own.tuneId = pass.tuneId;
    own.figures = [...pass.figures];
  }
  pass.repeats = own.repeats;
  pass.stretch = own.stretch;
}

/** @param {number | string} seed @returns {import('./learner.mjs').Law<State, Own>} */
function draw(seed) {
  const random = randomFrom(seed, 'tempo-and-context');
  const rate = random.scaled(0.02, 0.25);
  const reach = random.between(0.4, 0.55);
  const transfer = random.between(0.16, 0.26);
  const dulling = random.between(0.06, 0.12);
  const least = random.between(0.25, 0.4);
  const flattery = random.between(0.02, 0.05);
  const shown = random.between(0.6, 0.8);
  const variety = random.between(0.2, 0.4);
  const contextCost = random.between(0.08, 0.16);
  const width = random.between(0.06, 0.09);
  const easySide = random.between(0.16, 0.26);
  const hardSide = random.between(0.1, 0.15);
  const forgetting = random.between(0.04, 0.09);
  /** What the pass being played teaches at each tempo of the grid. */
  const kernel = noGrid();

  /** @param {State} state @param {number} at */
  const leftAt = (state, at) => leftAfter((at - state.lastAt) / DAY, FORGETTING_DAYS, forgetting);

  return {
    ways: drawWays(random),
    isTempoSpecific: true,
    own: { tuneId: '', figures: [], repeats: 0, stretch: 0 },
    copy: (state) => ({ ...state, skill: state.skill.slice(), fresh: state.fresh.slice() }),
    meet({ isSeam, goal, start, hardness, random: own }) {
      const plateau = Math.max(goal + 0.3, goal + reach - 0.25 * hardness);
      const skill = noGrid();
      const fresh = noGrid();
      const context = isSeam ? 0 : own.scaled(contextCost, 0.3);
      const span = plateau - start;
      const ownRate = own.scaled(rate, 0.2);
      return {
        start,
        span,
        rate: ownRate,
        skill,
        fresh,
        context,
        returns: 0,
        lastStretch: -1,
        lastAt: -Infinity,
      };
    },
    begin(pass, own) {
      countStretch(pass, own);
      const place = (pass.tempo - pass.goal - GRID_FROM) / GRID_STEP;
      for (let index = 0; index < GRID_SIZE; index++) {
        kernel[index] = index <= place ? 1 : Math.exp((-(index - place) * GRID_STEP) / transfer);
      }
    },
    level(state, pass) {
      const place = (pass.tempo - pass.goal - GRID_FROM) / GRID_STEP;
      const skill =
        leftAt(state, pass.at) * between(state.skill, place) + shown * between(state.fresh, place);
      const warm = flattery * (1 - Math.exp(-pass.repeats / 3));
      return (
        state.start + state.span * Math.min(1, skill) + warm - (pass.figures.length > 1 ? state.context : 0)
      );
    },
    chance: (level, _state, _pass, tempo) => ogive(tempo - level, width),
    practise(level, state, pass, isMissed) {
      if (pass.at - state.lastAt > HOUR) {
        const left = leftAt(state, pass.at);
        for (let index = 0; index < GRID_SIZE; index++)
          state.skill[index] = valueAt(state.skill, index) * left;
        state.lastAt = pass.at;
      }
      if (state.lastStretch !== pass.stretch) state.returns++;
      state.lastStretch = pass.stretch;
      // a long stretch brings its own variety
      const dull = (dulling * pass.repeats) / Math.sqrt(pass.figures.length);
      const isNew = Math.max(least, 1 / (1 + dull));
      const suits = challenge(pass.tempo - level, easySide, hardSide);
      const gain = state.rate * suits * isNew * pass.gain * (isMissed ? 0.35 : 1);
      for (let index = 0; index < GRID_SIZE; index++) {
        const room = 1 - valueAt(state.skill, index) - valueAt(state.fresh, index);
        state.fresh[index] = valueAt(state.fresh, index) + gain * valueAt(kernel, index) * Math.max(0, room);
      }
      if (pass.figures.length > 1) state.context *= 1 - 0.03 * suits;
    },
    lapse: () => 0,
    sleep(state) {
      const kept = 1 + variety * (Math.min(1, (state.returns - 1) / 4) - 0.3);
      for (let index = 0; index < GRID_SIZE; index++) {
        const after = valueAt(state.skill, index) + kept * valueAt(state.fresh, index);
        state.skill[index] = Math.min(1, after);
      }
      state.fresh.fill(0);
      state.returns = 0;
      state.lastStretch = -1;
    },
    rest(own) {
      own.tuneId = '';
      own.repeats = 0;
    },
  };
}

/** @param {import('./learner.mjs').LearnerOptions} options */
export default function ({ seed, tunes }) {
  return learnerOf({ seed, tunes }, draw(seed));
}
