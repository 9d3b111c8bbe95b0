import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import type { Outcome } from './records';
import type { SettledTempo } from './standing';

/**
 * The belief about one passage: a probability for each pair of slope and settled tempo, on a grid that is the same
 * for every passage. Row by slope, each row POINTS settled tempos, equally spaced in log tempo from GRID_LOW to
 * GRID_HIGH. The grid is in absolute tempo, so that a goal that is moved later changes no estimate. Sums to 1.
 *
 * Model: P(clean at x) = GUESS + (1 - GUESS - LAPSE) * F(slope * (ln x - ln s)), F logistic and falling, anchored so
 * that P(clean at s) = 17/20: the psychometric function of Wichmann & Hill 2001, Perception & Psychophysics 63:1293
 * [from memory], with the settled tempo itself as its location parameter.
 */
export type Belief = Float32Array;

/** A clean pass this often is what "settled" means (DESIGN.md section 2). */
export const SETTLED_CHANCE = 17 / 20;
/** Where a climb begins (DESIGN.md section 5). */
export const COMFORTABLE_CHANCE = 0.95;

const POINTS = 80;
const GRID_LOW = 16;
const GRID_HIGH = 320;
/** Between neighbouring settled tempos, in log tempo: 3.8 %. */
const SPACING = Math.log(GRID_HIGH / GRID_LOW) / (POINTS - 1);
/** Per unit of log tempo. At 7.5, from 17 in 20 to an even chance takes a tempo a quarter faster. */
const SLOPES = [4, 7.5, 14, 26] as const;
const SLOPE_WEIGHTS = [0.15, 0.4, 0.3, 0.15] as const;
/** A miss that has nothing to do with the tempo: a sneeze, a slip of the finger on the glass. */
const LAPSE = 0.02;
/** A pass marked clean that was not. */
const GUESS = 0.02;
/** Tempos are looked up in steps of an eighth of the grid's (under half a percent). */
const SUBSTEPS = 8;
/**
 * What one pass may move the truth, as chances of one grid step up and down: hands learn while they play. Measured
 * in tests/core/practice: less makes intervals that are too narrow for a learner who gains, more blunts a steady one.
 */
const DRIFT_UP = 0.016;
const DRIFT_DOWN = 0.008;
/** No cell falls below this, so that no run of careless marks rules a tempo out for good. */
const FLOOR = 1e-9;
/** A breakdown is also a miss at this share of the tempo. */
const BROKE_DOWN_AT = 0.92;

const CELLS = POINTS * SLOPES.length;
const ROW = 2 * POINTS;
const CLEAN = cleanTable();

/** CLEAN[(slope * SUBSTEPS + phase) * ROW + (point - base) + POINTS]: the chance at `base + phase / SUBSTEPS` grid steps. */
function cleanTable(): Float64Array {
  const anchor = (SETTLED_CHANCE - GUESS) / (1 - GUESS - LAPSE);
  const logit = Math.log(anchor / (1 - anchor));
  const table = new Float64Array(SLOPES.length * SUBSTEPS * ROW);
  for (const [row, slope] of SLOPES.entries()) {
    for (let phase = 0; phase < SUBSTEPS; phase++) {
      for (let place = 0; place < ROW; place++) {
        const above = (phase / SUBSTEPS - (place - POINTS)) * SPACING;
        const held = 1 / (1 + Math.exp(slope * above - logit));
        table[(row * SUBSTEPS + phase) * ROW + place] = GUESS + (1 - GUESS - LAPSE) * held;
      }
    }
  }
  return table;
}

/** A tempo that the program can play: within TEMPO_MIN..TEMPO_MAX, or `null` for what is no number at all. */
export function playableTempo(tempo: number): number | null {
  return Number.isNaN(tempo) ? null : Math.min(TEMPO_MAX, Math.max(TEMPO_MIN, tempo));
}

/**
 * A belief before any pass: log-normal around a tempo. `spread` is the standard deviation in log tempo (0.3: one
 * chance in three to be more than 30 % off).
 */
export function beliefAround(tempo: number, spread: number): Belief {
  const belief = new Float32Array(CELLS);
  const centre = gridPlace(playableTempo(tempo) ?? TEMPO_MIN);
  const width = Math.max(0.02, spread) / SPACING;
  let sum = 0;
  for (let point = 0; point < POINTS; point++) sum += Math.exp(-0.5 * ((point - centre) / width) ** 2);
  for (const [row, weight] of SLOPE_WEIGHTS.entries()) {
    for (let point = 0; point < POINTS; point++) {
      const density = Math.exp(-0.5 * ((point - centre) / width) ** 2) / sum;
      belief[row * POINTS + point] = Math.max(FLOOR, weight * density);
    }
  }
  return belief;
}

/**
 * Takes one pass into a belief, in place, at constant cost. `othersHeld`: for a miss that one of several links made,
 * the chance that all the others held (1: this passage alone was played). A tempo that is no number changes nothing.
 */
export function observe(belief: Belief, tempo: number, outcome: Outcome, othersHeld = 1): void {
  const played = playableTempo(tempo);
  if (played === null) return;
  if (outcome === 'clean') weigh(belief, played, 0, 1);
  else weigh(belief, played, 1 - GUESS * (1 - othersHeld), -othersHeld);
  if (outcome === 'broke down') {
    weigh(belief, played * BROKE_DOWN_AT, 1 - GUESS * (1 - othersHeld), -othersHeld);
  }
  drift(belief, DRIFT_UP, DRIFT_DOWN);
}

/** Multiplies each cell by `constant + factor * P(clean)`; leaves the sum at 1. */
function weigh(belief: Belief, tempo: number, constant: number, factor: number): void {
  const step = subStep(tempo);
  const phase = step % SUBSTEPS;
  const start = POINTS - (step - phase) / SUBSTEPS;
  let sum = 0;
  for (let row = 0; row < SLOPES.length; row++) {
    const from = (row * SUBSTEPS + phase) * ROW + start;
    const first = row * POINTS;
    for (let point = 0; point < POINTS; point++) {
      const cell = belief[first + point]! * (constant + factor * CLEAN[from + point]!);
      belief[first + point] = cell;
      sum += cell;
    }
  }
  const scale = 1 / sum;
  for (let cell = 0; cell < CELLS; cell++) belief[cell] = belief[cell]! * scale;
}

/** Moves a share of each cell's chance one grid step up, and one down; what would leave the grid stays at its edge. */
function drift(belief: Belief, up: number, down: number): void {
  const stay = 1 - up - down;
  for (let first = 0; first < CELLS; first += POINTS) {
    const last = first + POINTS - 1;
    let before = belief[first]!;
    let here = belief[first + 1]!;
    belief[first] = (1 - up) * before + down * here + FLOOR;
    for (let cell = first + 1; cell < last; cell++) {
      const after = belief[cell + 1]!;
      belief[cell] = stay * here + up * before + down * after + FLOOR;
      before = here;
      here = after;
    }
    belief[last] = (1 - down) * here + up * before + FLOOR;
  }
}

/**
 * Time away, in place: the belief sinks by `sink` and widens by `variance`, both in log tempo (see `fading`).
 */
export function passTime(belief: Belief, sink: number, variance: number): void {
  for (let steps = sink / SPACING; steps > 0; steps -= 1) drift(belief, 0, Math.min(1, steps));
  const perSweep = SPACING * SPACING * (2 / 3);
  for (let left = Math.min(variance, 24 * perSweep); left > 0; left -= perSweep) {
    const share = Math.min(left, perSweep) / (SPACING * SPACING) / 2;
    drift(belief, share, share);
  }
}

/** The predicted chance of a clean pass at a tempo: the mean over the belief. Never rises with the tempo. */
export function chanceOfClean(belief: Belief, tempo: number): number {
  return chanceAtStep(belief, subStep(playableTempo(tempo) ?? TEMPO_MAX));
}

function chanceAtStep(belief: Belief, step: number): number {
  const phase = step % SUBSTEPS;
  const start = POINTS - (step - phase) / SUBSTEPS;
  let chance = 0;
  let sum = 0;
  for (let row = 0; row < SLOPES.length; row++) {
    const from = (row * SUBSTEPS + phase) * ROW + start;
    const first = row * POINTS;
    for (let point = 0; point < POINTS; point++) {
      chance += belief[first + point]! * CLEAN[from + point]!;
      sum += belief[first + point]!;
    }
  }
  return chance / sum;
}

const marginal = new Float64Array(POINTS);

/** The median of the settled tempo and the interval that holds it 80 times in 100. */
export function settledTempo(belief: Belief): SettledTempo {
  let sum = 0;
  for (let point = 0; point < POINTS; point++) {
    let mass = 0;
    for (let cell = point; cell < CELLS; cell += POINTS) mass += belief[cell]!;
    marginal[point] = mass;
    sum += mass;
  }
  return { tempo: quantile(0.5 * sum), low: quantile(0.1 * sum), high: quantile(0.9 * sum) };
}

/** Where the marginal has gathered `mass`; each grid point stands for the stretch half way to its neighbours. */
function quantile(mass: number): number {
  let point = 0;
  let below = 0;
  while (point < POINTS - 1 && below + marginal[point]! < mass) below += marginal[point++]!;
  const place = point - 0.5 + (mass - below) / marginal[point]!;
  const tempo = GRID_LOW * Math.exp(place * SPACING);
  return Math.min(TEMPO_MAX, Math.max(TEMPO_MIN, tempo));
}

/**
 * The fastest tempo at which a clean pass is about 95 % likely, lapses left out (they come at any tempo); not rounded,
 * within TEMPO_MIN..TEMPO_MAX.
 */
export function comfortableTempo(belief: Belief): number {
  const wanted = GUESS + (1 - GUESS - LAPSE) * COMFORTABLE_CHANCE;
  let low = subStep(TEMPO_MIN);
  let high = subStep(TEMPO_MAX);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (chanceAtStep(belief, middle) >= wanted) low = middle;
    else high = middle - 1;
  }
  const tempo = GRID_LOW * Math.exp((low / SUBSTEPS) * SPACING);
  return Math.min(TEMPO_MAX, Math.max(TEMPO_MIN, tempo));
}

function gridPlace(tempo: number): number {
  return Math.log(tempo / GRID_LOW) / SPACING;
}

function subStep(tempo: number): number {
  return Math.max(0, Math.min((POINTS - 1) * SUBSTEPS, Math.round(gridPlace(tempo) * SUBSTEPS)));
}
