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
 *
 * @typedef {object} Extras beyond the contract: see CONTRACT.md
 * @property {() => ForkableLearner} fork
 * @property {(tuneId: string, at: number, from?: number, count?: number) => readonly number[]} abilities
 * @typedef {Learner & Extras} ForkableLearner
 */

/**
 * @template State
 * @typedef {{ state: State, plays: number, isPlayedToday: boolean }} Link
 */
/**
 * A tune and its links by number; a link that was not played yet may be missing.
 * @template State
 * @typedef {{ known: ReturnType<typeof openTune<State, object>>, links: (Link<State> | undefined)[] }} OpenTune
 */
/**
 * @template State
 * @typedef {Map<string, OpenTune<State>>} Book
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
 * @property {number} stretch running number of the stretches played, where a law counts them
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
 * A law keeps nothing itself: what changes is in the links' states and in the learner's own.
 * @template State
 * @template {object} [Own=object]
 * @typedef {object} Law
 * @property {Ways} ways
 * @property {boolean} isTempoSpecific whether a level depends on the tempo of the pass
 * @property {Own} [own] the learner's own state before any practice; its values are replaced, never changed inside
 * @property {(link: NewLink) => State} meet
 * @property {(state: State) => State} copy shares nothing
 * @property {(pass: Pass, own: Own) => void} [begin] a pass is about to be played: the learner's own state changes
 * @property {(pass: Pass, own: Own) => void} [frame] writes the learner's own state into a pass and changes nothing else
 * @property {(state: State, pass: Pass) => number} level how the link stands, in the law's own unit; pure
 * @property {(level: number, state: State, pass: Pass, tempo: number) => number} chance of clean; pure
 * @property {(level: number, state: State, pass: Pass, isMissed: boolean, place: number) => void} practise
 * `place` counts the pass's links: figure, seam, figure ...
 * @property {(pass: Pass) => number} lapse chance that attention slips once in this pass; pure
 * @property {(state: State) => void} sleep a night for a link that was played since the last one
 * @property {(own: Own) => void} [rest] a night for the learner
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
/** Halvings to a ten-millionth of a log tempo, and to less than a thousandth. */
const FINE = 26;
const COARSE = 13;
/** Numbers of the links of the pass that is being played. @type {number[]} */
const playing = [];

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
 * The highest log tempo that holds; all higher ones must fail.
 * @param {(tempo: number) => boolean} holds
 * @param {number} goal log tempo
 * @param {number} halvings of an interval of 6
 */
function highest(holds, goal, halvings) {
  let low = goal - 4;
  let high = goal + 2;
  for (let halving = 0; halving < halvings; halving++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * @param {{ tune: LearnerTune, goal: number }} known
 * @param {Played} played
 * @returns {Pass}
 */
function passOf({ tune, goal }, { tuneId, figures, tempo, at, fromMemory }) {
  const beats = tune.beats * figures.length;
  return {
    ...{ tuneId, figures, at, tempo: Math.log(tempo), goal },
    ...{ beats, minutes: beats / tempo, gain: fromMemory ? MEMORY_GAIN : 1 },
    ...{ repeats: 0, stretch: 0, tired: 0 },
  };
}

/**
 * The learner that a law makes.
 * @template State
 * @template {object} Own
 * @param {LearnerOptions} options
 * @param {Law<State, Own>} law
 * @returns {ForkableLearner}
 */
export function learnerOf({ seed, tunes }, law) {
  /** @type {Book<State>} */
  const book = new Map(tunes.map((tune) => [tune.id, { known: openTune(tune, seed, law), links: [] }]));
  const own = /** @type {Own} */ ({ ...law.own });
  return learnerWith(law, { book, own, random: randomFrom(seed, 'passes') });
}

/**
 * @template State
 * @template {object} Own
 * @param {Law<State, Own>} law
 * @param {{ book: Book<State>, own: Own, random: import('./random.mjs').Random }} mind
 * @returns {ForkableLearner}
 */
function learnerWith(law, { book, own, random }) {
  const { ways } = law;

  /** @param {string} tuneId */
  const open = (tuneId) => {
    const tune = book.get(tuneId);
    if (!tune) throw new Error(`a learner plays only the tunes it was given: saw the tune "${tuneId}"`);
    return tune;
  };
  /** @param {OpenTune<State>} tune @param {number} number @returns {Link<State>} */
  const linkAt = ({ known, links }, number) =>
    (links[number] ??= { state: law.copy(known.unpractised(number)), plays: 0, isPlayedToday: false });

  /** @param {Played} played @returns {PassResult} */
  function play(played) {
    const tune = open(played.tuneId);
    const pass = passOf(tune.known, played);
    law.begin?.(pass, own);
    law.frame?.(pass, own);
    const numbers = tune.known.numbersOf(played.figures, playing);
    const lapseAt = random.next() < law.lapse(pass) ? Math.floor(random.next() * numbers.length) : -1;
    /** @type {number | null} */
    let missAt = null;
    let place = -1;
    for (const number of numbers) {
      place++;
      const link = linkAt(tune, number);
      const memoryCost = played.fromMemory ? ways.memoryCost / (1 + link.plays / MEMORY_PLAYS) : 0;
      const level = law.level(link.state, pass);
      const chance = law.chance(level, link.state, pass, pass.tempo + memoryCost);
      const isMissed = random.next() >= chance;
      law.practise(level, link.state, pass, isMissed, place);
      link.plays++;
      link.isPlayedToday = true;
      if (isMissed || place === lapseAt) missAt ??= (place + 1) >> 1;
      // the farther over its ability a link was, the likelier everything stops there
      if (isMissed && random.next() < (1 - chance) ** 2) return { outcome: 'broke down', missAt };
    }
    return { outcome: missAt === null ? 'clean' : 'stumbled', missAt };
  }

  /** @param {number} _at */
  function night(_at) {
    for (const { links } of book.values()) {
      for (const link of links) {
        if (!link?.isPlayedToday) continue;
        link.isPlayedToday = false;
        law.sleep(link.state);
      }
    }
    law.rest?.(own);
  }

  /** A pass through the whole tune with the notes in view. @param {string} tuneId @param {number} at */
  function wholePass(tuneId, at) {
    const { known } = open(tuneId);
    const { figures, goal } = known.tune;
    const pass = passOf(known, { tuneId, figures, tempo: goal, at, fromMemory: false });
    law.frame?.(pass, own);
    return pass;
  }
  /** Chance of clean by log tempo; its level is worked out but once where it can be. @param {State} state @param {Pass} pass */
  function chanceOf(state, pass) {
    const known = law.isTempoSpecific ? undefined : law.level(state, pass);
    /** @param {number} tempo */
    return (tempo) => {
      pass.tempo = tempo;
      return law.chance(known ?? law.level(state, pass), state, pass, tempo);
    };
  }

  /** @param {string} tuneId @param {number} at */
  function ready(tuneId, at) {
    const tune = open(tuneId);
    const pass = wholePass(tuneId, at);
    const chances = tune.known.whole.map((number) => chanceOf(linkAt(tune, number).state, pass));
    const atBest = 1 - law.lapse(pass);
    /** @param {number} tempo */
    const isReadyAt = (tempo) => {
      let chance = atBest;
      for (let index = 0; index < chances.length && chance >= READY_CHANCE; index++) {
        chance *= chances[index]?.(tempo) ?? 1;
      }
      return chance >= READY_CHANCE;
    };
    return Math.exp(highest(isReadyAt, pass.goal, FINE));
  }

  /** @param {string} tuneId @param {number} at @param {number} [from] @param {number} [count] */
  function abilities(tuneId, at, from = 0, count = Infinity) {
    const tune = open(tuneId);
    const { whole } = tune.known;
    const pass = wholePass(tuneId, at);
    const share = (READY_CHANCE / (1 - law.lapse(pass))) ** (1 / whole.length);
    return whole.slice(2 * from, 2 * (from + count) - 1).map((number) => {
      const chance = chanceOf(linkAt(tune, number).state, pass);
      return Math.exp(highest((tempo) => chance(tempo) >= share, pass.goal, COARSE));
    });
  }

  function fork() {
    /** @type {Book<State>} */
    const copied = new Map();
    /** @param {Link<State> | undefined} link @returns {Link<State> | undefined} */
    const copy = (link) => link && { ...link, state: law.copy(link.state) };
    for (const [id, { known, links }] of book) copied.set(id, { known, links: links.map(copy) });
    return learnerWith(law, { book: copied, own: { ...own }, random: random.copy() });
  }

  return { play, night, ready, abilities, fork };
}
