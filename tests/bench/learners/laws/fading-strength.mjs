/**
 * Law 2: every pass leaves a trace that fades by a power of its age, strength is the log of their sum, and the time
 * a beat takes falls with a power of strength towards a floor. A trace laid on top of much strength fades faster,
 * so that spacing helps.
 *
 * Sources for the shape:
 * - Anderson, Fincham & Douglass 1999, "Practice and Retention: A Unifying Analysis", JEP:LMC 25, 1120-1136:
 *   strength = sum t_j^-d gives both practice and forgetting power laws [looked up: abstract].
 * - Pavlik & Anderson 2005, Cognitive Science 29, 559-586 [looked up: abstract]: m_n = ln(sum t_i^-d_i),
 *   d_i = c*e^(m_{i-1}) + a, p = 1/(1+e^((tau-m)/s)) [from memory]. Time away from the task counts for less than time
 *   in it, there as here [from memory].
 * - Newell & Rosenbloom 1981: RT = A + B*N^-b [looked up: tech-report abstract ADA096527].
 * Sizes are ours, drawn per seed.
 *
 * For speed the traces of one day are one trace (summed weight, mean age, mean decay), and beyond twelve days the
 * two become one that differ least. The test compares this with the whole sum: within 2 % of strength, which is under 1 % of
 * tempo. The fading within one sitting is taken at steps of an hour.
 */
import { challenge } from './curves.mjs';
import { DAY, drawWays, learnerOf } from './learner.mjs';
import { randomFrom } from './random.mjs';

/** @typedef {{ weight: number, at: number, decay: number }} Trace */
/** @typedef {{ floor: number, scale: number, traces: Trace[], today: Trace, known: number, knownAt: number }} State */

const HOUR = DAY / 24;
const MOST_TRACES = 12;
/** Age at which a trace has faded to 2^-d; ours. */
const AGE_SCALE = 10 * HOUR;
/** Strength at which c counts in full: about where a tune is ready at its goal. */
const FULL_STRENGTH = 250;
/** A difference in decay counts by the log of an age of some weeks. */
const DECAY_WEIGHT = 8;
const LOGIT_85 = Math.log(0.85 / 0.15);

/** @param {number} age milliseconds @param {number} decay */
export const fadedTo = (age, decay) => (1 + Math.max(0, age) / AGE_SCALE) ** -decay;

/** @param {Trace[]} traces @param {number} at */
function sumOf(traces, at) {
  let sum = 0;
  for (const trace of traces) sum += trace.weight * fadedTo(at - trace.at, trace.decay);
  return sum;
}

/** @param {Trace[]} traces @param {number} index */
const traceAt = (traces, index) => /** @type {Trace} */ (traces[index]);

/** @param {Trace} into @param {Trace} added */
function addTrace(into, added) {
  const weight = into.weight + added.weight;
  if (weight === 0) return;
  const share = added.weight / weight;
  into.at += share * (added.at - into.at);
  into.decay += share * (added.decay - into.decay);
  into.weight = weight;
}

/** Traces as this law keeps them: today's passes as one, and a bounded number of days. */
export function startTraces() {
  /** @type {Trace[]} */
  const traces = [];
  return { traces, today: { weight: 0, at: 0, decay: 0 } };
}

/**
 * How much the sum would be off if two traces became one: they may differ in age, when both are old, and in decay.
 * @param {Trace} older
 * @param {Trace} newer
 * @param {number} at
 */
function lossOf(older, newer, at) {
  const ages = Math.log((AGE_SCALE + at - older.at) / (AGE_SCALE + at - newer.at));
  const decays = DECAY_WEIGHT * (older.decay - newer.decay);
  const weight = (older.weight * newer.weight) / (older.weight + newer.weight);
  return weight * fadedTo(at - newer.at, newer.decay) * (ages * ages + decays * decays);
}

/** @param {{ traces: Trace[], today: Trace }} state */
export function closeDay(state) {
  const { traces, today } = state;
  if (today.weight === 0) return;
  traces.push(today);
  state.today = { weight: 0, at: 0, decay: 0 };
  if (traces.length <= MOST_TRACES) return;
  let least = Infinity;
  let chosen = 1;
  for (let index = 1; index < traces.length; index++) {
    const loss = lossOf(traceAt(traces, index - 1), traceAt(traces, index), today.at + DAY);
    if (loss < least) {
      least = loss;
      chosen = index;
    }
  }
  addTrace(traceAt(traces, chosen), traceAt(traces, chosen - 1));
  traces.splice(chosen - 1, 1);
}

/** @param {{ traces: Trace[], today: Trace }} state @param {number} at @param {number} weight @param {number} decay */
export function layTrace(state, at, weight, decay) {
  addTrace(state.today, { weight, at, decay });
}

/** @param {{ traces: Trace[], today: Trace }} state @param {number} at */
export const strengthOf = ({ traces, today }, at) =>
  sumOf(traces, at) + today.weight * fadedTo(at - today.at, today.decay);

/** @param {number | string} seed @returns {import('./learner.mjs').Law<State>} */
function draw(seed) {
  const random = randomFrom(seed, 'fading-strength');
  const worth = random.scaled(0.35, 0.25);
  const power = random.between(0.46, 0.56);
  const noise = random.between(0.14, 0.22);
  const before = random.between(3, 5);
  const decayLeast = random.between(0.1, 0.18);
  const decayMore = random.between(0.25, 0.45);
  const reach = random.between(0.48, 0.62);
  const easySide = random.between(0.16, 0.26);
  const hardSide = random.between(0.1, 0.16);

  /** Log tempo that comes out clean 85 times in 100. @param {State} state @param {number} level */
  const ableAt = (state, level) =>
    -Math.log(state.floor + state.scale * Math.exp(-power * (level - noise * LOGIT_85)));

  return {
    ways: drawWays(random),
    isTempoSpecific: false,
    meet({ goal, start, hardness }) {
      const floor = Math.exp(-Math.max(goal + 0.42, goal + reach - 0.2 * hardness));
      const first = Math.log(before) - noise * LOGIT_85;
      const scale = (Math.exp(-start) - floor) * Math.exp(power * first);
      return { floor, scale, ...startTraces(), known: 0, knownAt: -Infinity };
    },
    copy(state) {
      const traces = state.traces.map((trace) => ({ ...trace }));
      return { ...state, traces, today: { ...state.today } };
    },
    level(state, { at }) {
      const isKnown = at >= state.knownAt && at - state.knownAt < HOUR;
      const { today } = state;
      const fromToday = today.weight * fadedTo(at - today.at, today.decay);
      return Math.log(before + fromToday + (isKnown ? state.known : sumOf(state.traces, at)));
    },
    chance(level, { floor, scale }, _pass, tempo) {
      const slack = Math.exp(-tempo) - floor;
      if (slack <= 0) return 0;
      const asked = -Math.log(slack / scale) / power;
      return 1 / (1 + Math.exp((asked - level) / noise));
    },
    practise(level, state, pass, isMissed) {
      const { at } = pass;
      // nobody has to call `night`: half a day's pause closes the day as well
      if (at - state.today.at > DAY / 2) closeDay(state);
      if (!(at >= state.knownAt && at - state.knownAt < HOUR)) {
        state.known = sumOf(state.traces, at);
        state.knownAt = at;
      }
      const suits = challenge(pass.tempo - ableAt(state, level), easySide, hardSide);
      const decay = decayLeast + decayMore * Math.min(1.5, Math.exp(level) / FULL_STRENGTH);
      layTrace(state, at, worth * pass.gain * suits * (isMissed ? 0.5 : 1), decay);
    },
    lapse: () => 0,
    sleep(state) {
      closeDay(state);
      state.knownAt = -Infinity;
    },
  };
}

/** @param {import('./learner.mjs').LearnerOptions} options */
export default function ({ seed, tunes }) {
  return learnerOf({ seed, tunes }, draw(seed));
}
