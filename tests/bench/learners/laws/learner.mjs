/**
 * What all laws have in common: which links a pass goes through, where it fails, and the search for `ready`. A law
 * says how each link stands, how likely it holds, and what playing it does.
 */
import { randomFrom } from './random.mjs';
import { openTune } from './tune-links.mjs';

/**
 * @typedef {{ id: string, goal: number, beats: number, figures: readonly string[] }} LearnerTune
 * @typedef {{ seed: number | string, tunes: readonly LearnerTune[] }} LearnerOptions
 * @typedef {{ tuneId: string, figures: readonly string[], tempo: number, at: number, fromMemory: boolean }} Played
 * @typedef {{ outcome: 'clean' | 'stumbled' | 'broke down', missAt: number | null }} PassResult
 * @typedef {object} Learner
 * @property {(played: Played) => PassResult} play
 * @property {(at: number) => void} night
 * @property {(tuneId: string, at: number) => number} ready
 */

/**
 * A pass as a law sees it. Log tempos are natural logs of beats per minute.
 * @typedef {object} Pass
 * @property {string} tuneId
 * @property {readonly string[]} figures
 * @property {number} at epoch milliseconds
 * @property {number} tempo log tempo
 * @property {number} goal log tempo
 * @property {number} minutes how long it sounds
 * @property {number} beats
 * @property {number} gain 1, or a little more from memory
 * @property {number} repeats how often the same stretch was just played, where a law counts it
 * @property {number} tired 0 to 1, where a law tires
 */

/**
 * What a law is told when a link is first met.
 * @typedef {object} NewLink
 * @property {boolean} isSeam
 * @property {boolean} isSwitch a seam out of a figure that the tune continues in more ways than one
 * @property {number} goal log tempo of the tune's goal
 * @property {number} start log tempo that comes out clean 85 times in 100 before any practice
 * @property {number} hardness how much harder than the tune's ordinary links, log tempo
 * @property {import('./random.mjs').Random} random of this link alone
 */

/**
 * @template State
 * @typedef {object} Law
 * @property {Ways} ways
 * @property {boolean} isTempoSpecific whether a level depends on the tempo of the pass
 * @property {(link: NewLink) => State} meet
 * @property {(pass: Pass) => void} [begin] a pass is about to be played: the learner's own state changes
 * @property {(pass: Pass) => void} [frame] writes the learner's own state into a pass and changes nothing else
 * @property {(state: State, pass: Pass) => number} level how the link stands, in the law's own unit; pure
 * @property {(level: number, state: State, pass: Pass, tempo: number) => number} chance of clean; pure
 * @property {(level: number, state: State, pass: Pass, isMissed: boolean, place: number) => void} practise
 * `place` counts the pass's links: figure, seam, figure ...
 * @property {(pass: Pass) => number} lapse chance that attention slips once in this pass; pure
 * @property {(state: State) => void} sleep a night for a link that was played since the last one
 * @property {() => void} [rest] a night for the learner
 */

/**
 * How a learner and the tunes differ, in log tempo.
 * @typedef {object} Ways
 * @property {number} skill log share of the goal at which an ordinary measure starts clean
 * @property {number} spread standard deviation of hardness among a tune's figures
 * @property {number} seamEase how much easier than its two figures a seam starts; negative: harder
 * @property {number} seamSpread
 * @property {number} switchCost
 * @property {number} memoryCost log tempo lost from memory in the first passes
 */

export const DAY = 86_400_000;
/** Plays after which half of the cost of playing from memory is gone; ours. */
const MEMORY_PLAYS = 40;
/** Retrieving teaches a little more than reading; the size is ours. */
const MEMORY_GAIN = 1.1;
const READY_CHANCE = 17 / 20;

/**
 * A learner like most: measures start clean at about 35 to 55 % of the goal, a few are clearly harder.
 * @param {import('./random.mjs').Random} random
 * @param {Partial<Ways>} [own]
 * @returns {Ways}
 */
export function drawWays(random, own = {}) {
  return {
    skill: Math.log(0.45) + 0.1 * random.normal(),
    spread: random.between(0.15, 0.22),
    seamEase: random.between(0.03, 0.1),
    seamSpread: random.between(0.1, 0.16),
    switchCost: random.between(0, 0.06),
    memoryCost: random.between(0.02, 0.06),
    ...own,
  };
}

/**
 * The highest log tempo that holds, to a millionth of it; all higher ones must fail.
 * @param {(tempo: number) => boolean} holds
 * @param {number} goal log tempo
 */
function highest(holds, goal) {
  let low = goal - 4;
  let high = goal + 2;
  for (let halving = 0; halving < 26; halving++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * The learner that a law makes.
 * @template State
 * @param {LearnerOptions} options
 * @param {Law<State>} law
 * @returns {Learner}
 */
export function learnerOf({ seed, tunes }, law) {
  const { ways } = law;
  const random = randomFrom(seed, 'passes');
  const book = new Map(tunes.map((tune) => [tune.id, openTune(tune, seed, law)]));
  /** @type {import('./tune-links.mjs').Link<State>[]} */
  const links = [];
  /** @type {import('./tune-links.mjs').Link<State>[]} */
  const playedToday = [];

  /** @param {string} tuneId */
  const open = (tuneId) => {
    const tune = book.get(tuneId);
    if (!tune) throw new Error(`a learner plays only the tunes it was given: saw the tune "${tuneId}"`);
    return tune;
  };
  /** @param {Played} played @returns {Pass} */
  const passOf = ({ tuneId, figures, tempo, at, fromMemory }) => {
    const { tune, goal } = open(tuneId);
    const beats = tune.beats * figures.length;
    const gain = fromMemory ? MEMORY_GAIN : 1;
    return {
      tuneId,
      figures,
      at,
      tempo: Math.log(tempo),
      goal,
      beats,
      minutes: beats / tempo,
      gain,
      repeats: 0,
      tired: 0,
    };
  };

  /** @param {Played} played @returns {PassResult} */
  function play(played) {
    const pass = passOf(played);
    law.begin?.(pass);
    law.frame?.(pass);
    open(played.tuneId).linksOf(played.figures, links);
    const lapseAt = random.next() < law.lapse(pass) ? Math.floor(random.next() * links.length) : -1;
    /** @type {number | null} */
    let missAt = null;
    let place = -1;
    for (const link of links) {
      place++;
      const memoryCost = played.fromMemory ? ways.memoryCost / (1 + link.plays / MEMORY_PLAYS) : 0;
      const level = law.level(link.state, pass);
      const chance = law.chance(level, link.state, pass, pass.tempo + memoryCost);
      const isMissed = random.next() >= chance;
      law.practise(level, link.state, pass, isMissed, place);
      link.plays++;
      if (!link.isPlayedToday) {
        link.isPlayedToday = true;
        playedToday.push(link);
      }
      if (isMissed || place === lapseAt) missAt ??= (place + 1) >> 1;
      // the farther over its ability a link was, the likelier everything stops there
      if (isMissed && random.next() < (1 - chance) ** 2) return { outcome: 'broke down', missAt };
    }
    return { outcome: missAt === null ? 'clean' : 'stumbled', missAt };
  }

  /** @param {number} _at */
  function night(_at) {
    for (const link of playedToday) {
      link.isPlayedToday = false;
      law.sleep(link.state);
    }
    playedToday.length = 0;
    law.rest?.();
  }

  /** @param {string} tuneId @param {number} at */
  function ready(tuneId, at) {
    const { tune, goal, whole } = open(tuneId);
    const pass = passOf({ tuneId, figures: tune.figures, tempo: tune.goal, at, fromMemory: false });
    law.frame?.(pass);
    const levels = law.isTempoSpecific ? null : whole.map((link) => law.level(link.state, pass));
    /** @param {number} tempo */
    const isReadyAt = (tempo) => {
      pass.tempo = tempo;
      pass.minutes = pass.beats / Math.exp(tempo);
      let chance = 1 - law.lapse(pass);
      for (let index = 0; index < whole.length && chance >= READY_CHANCE; index++) {
        const { state } = /** @type {import('./tune-links.mjs').Link<State>} */ (whole[index]);
        chance *= law.chance(levels?.[index] ?? law.level(state, pass), state, pass, tempo);
      }
      return chance >= READY_CHANCE;
    };
    return Math.exp(highest(isReadyAt, goal));
  }

  return { play, night, ready };
}
