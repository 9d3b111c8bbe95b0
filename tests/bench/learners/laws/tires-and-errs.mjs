/**
 * Law 4: hands and head tire within a sitting and rest restores them; what goes wrong is learned too, so that playing
 * too fast builds a habit that clean passes have to wear off; and attention slips now and then at any tempo.
 *
 * Sources for the shape:
 * - Duke, Simmons & Cash 2009, "It's Not How Much; It's How", J Res Music Educ 56, 310-321: retention rank unrelated
 *   to practice time; % correct trials r=-.51, number of INCORRECT trials r=.48 (signs imply rank 1 = best)
 *   [looked up: abstract].
 * - Release from fatigue after a rest: Sheth 2008, PLoS ONE 3 e3190 [looked up: abstract].
 * - Gain by clean passes: Newell & Rosenbloom 1981, RT = A + B*N^-b [looked up: tech-report abstract ADA096527].
 * - Pfordresher, Palmer & Jungers 2007, Cognitive Science: accuracy rises at slower rates [looked up: abstract].
 * Sizes, and the times of tiring and resting, are ours, drawn per seed.
 */
import { challenge, lateTrouble, leftAfter } from './curves.mjs';
import { DAY, drawWays, learnerOf } from './learner.mjs';
import { randomFrom } from './random.mjs';

/** @typedef {{ floor: number, span: number, worth: number, passes: number, habit: number, lastAt: number }} State */
/** @typedef {{ tired: number, endedAt: number }} Own */
/** @typedef {import('./learner.mjs').Pass} Pass */

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const FORGETTING_DAYS = 20;
/** Shorter pauses than this are part of playing. */
const PAUSE_MIN = 0.35;
const WORST_HABIT = 0.22;
/** A slip in more than this share of passes would leave nobody ready, however well a long tune is known. */
const MOST_LAPSES = 0.1;

/**
 * How tired a learner gets, 0 to 1, with the time that has gone since the last pass.
 * @param {import('./random.mjs').Random} random
 */
function drawFatigue(random) {
  const tiresIn = random.between(30, 55);
  const restsIn = random.between(8, 16);
  /** @param {Own} own @param {number} at */
  const tiredAt = ({ tired, endedAt }, at) => {
    const pause = Math.max(0, at - endedAt) / MINUTE;
    return pause > PAUSE_MIN ? tired * Math.exp(-pause / restsIn) : tired;
  };
  return {
    tiredAt,
    /** @param {Pass} pass @param {Own} own */
    add({ at, minutes }, own) {
      const pause = Math.max(0, at - own.endedAt) / MINUTE;
      const busy = minutes + (pause <= PAUSE_MIN ? pause : 0);
      own.tired = 1 - (1 - tiredAt(own, at)) * Math.exp(-busy / tiresIn);
      own.endedAt = at + minutes * MINUTE;
    },
  };
}

/** @param {number | string} seed @returns {import('./learner.mjs').Law<State, Own>} */
function draw(seed) {
  const random = randomFrom(seed, 'tires-and-errs');
  const fatigue = drawFatigue(random);
  const worth = random.scaled(1.4, 0.25);
  const power = random.between(0.45, 0.6);
  const warmUp = random.between(6, 10);
  const reach = random.between(0.42, 0.56);
  const width = random.between(0.09, 0.13);
  const easySide = random.between(0.16, 0.26);
  const tiredDrop = random.between(0.04, 0.1);
  const tiredGain = random.between(0.5, 0.8);
  const habitUp = random.between(0.005, 0.011);
  const habitOff = random.between(0.03, 0.06);
  const lapses = random.between(0.015, 0.04);
  const forgetting = random.between(0.18, 0.32);

  /** @param {State} state @param {number} at */
  const passesAt = ({ passes, lastAt }, at) =>
    passes * leftAfter((at - lastAt) / DAY, FORGETTING_DAYS, forgetting);

  /** @param {Pass} pass */
  const lapse = ({ tired, beats }) =>
    Math.min(MOST_LAPSES, 1 - Math.exp((-lapses * (1 + tired) * beats) / 32));

  return {
    ways: drawWays(random),
    isTempoSpecific: false,
    own: { tired: 0, endedAt: 0 },
    copy: (state) => ({ ...state }),
    meet({ goal, start, hardness, random: own }) {
      const floor = Math.exp(-Math.max(goal + 0.34, goal + reach - 0.25 * hardness));
      const span = Math.exp(-start) - floor;
      return { floor, span, worth: own.scaled(worth, 0.2), passes: 0, habit: 0, lastAt: -Infinity };
    },
    level(state, { at, tired }) {
      const beat = state.floor + state.span * (1 + passesAt(state, at) / warmUp) ** -power;
      return -Math.log(beat) - state.habit - tiredDrop * tired;
    },
    chance: (level, _state, _pass, tempo) => lateTrouble(tempo - level, width),
    practise(level, state, pass, isMissed) {
      if (pass.at - state.lastAt > HOUR) {
        state.passes = passesAt(state, pass.at);
        state.lastAt = pass.at;
      }
      const over = pass.tempo - level;
      const suits = challenge(over, easySide, easySide);
      const fresh = 1 - tiredGain * pass.tired;
      state.passes += state.worth * pass.gain * suits * fresh * (isMissed ? 0.15 : 1);
      if (isMissed) {
        const wrong = habitUp * (1 + Math.min(2, Math.max(0, over) / width));
        state.habit = Math.min(WORST_HABIT, state.habit + wrong);
      } else {
        state.habit *= 1 - habitOff;
      }
    },
    begin: fatigue.add,
    frame(pass, own) {
      pass.tired = fatigue.tiredAt(own, pass.at);
    },
    lapse,
    sleep() {
      // nights restore the learner, not the single link
    },
    rest(own) {
      own.tired = 0;
    },
  };
}

/** @param {import('./learner.mjs').LearnerOptions} options */
export default function ({ seed, tunes }) {
  return learnerOf({ seed, tunes }, draw(seed));
}
