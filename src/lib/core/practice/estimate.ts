import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import type { Outcome } from './records';
import type { SettledTempo } from './standing';

/**
 * The belief about one passage: a weight for each pair of slope and settled tempo, on a grid that is the same for
 * every passage. Row by slope, each row POINTS settled tempos, equally spaced in log tempo from GRID_LOW to GRID_HIGH. The grid
 * is in absolute tempo, so that a goal that is moved later changes no estimate. Plain data.
 *
 * Model: P(clean at x) = GUESS + (1 - GUESS - LAPSE) * F(slope * (ln x - ln s)), F logistic and falling, anchored so
 * that P(clean at s) = 17/20: the psychometric function of Wichmann & Hill 2001, Perception & Psychophysics 63:1293
 * [from memory], with the settled tempo itself as its location parameter.
 */
export interface Belief {
  cells: Float32Array;
  /** The columns that hold all but next to nothing of the weight: `from` (included) to `to` (not included). */
  from: number;
  to: number;
  /** Of the cells in those columns; the others count as 0. */
  sum: number;
}

/** A clean pass this often is what "settled" means (DESIGN.md section 2). */
export const SETTLED_CHANCE = 17 / 20;
/** Where a climb begins (DESIGN.md section 5). */
const COMFORTABLE_CHANCE = 0.95;

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
/** Columns at the edges with less than this share of the weight are let go; `DRIFT_*` wins one back with every pass. */
const NEGLIGIBLE = 1e-4;
/** A clean pass so many columns (23 %) below everything that is believed possible says nothing new. */
const FOREGONE = 6;
/** A pass that was given less of a chance than this puts the belief itself in doubt: */
const SURPRISE = 0.1;
/** then this share of the weight goes back to all tempos alike, so that a few such passes in a row move it there. */
const RESTART = 0.01;
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
  const cells = new Float32Array(CELLS);
  const centre = gridPlace(playableTempo(tempo) ?? TEMPO_MIN);
  const width = Math.max(0.02, spread) / SPACING;
  for (const [row, weight] of SLOPE_WEIGHTS.entries()) {
    for (let point = 0; point < POINTS; point++) {
      cells[row * POINTS + point] = weight * Math.exp(-0.5 * ((point - centre) / width) ** 2);
    }
  }
  const belief = { cells, from: 0, to: POINTS, sum: cells.reduce((sum, cell) => sum + cell, 0) };
  trim(belief);
  return belief;
}

export function copyBelief({ cells, from, to, sum }: Belief): Belief {
  return { cells: cells.slice(), from, to, sum };
}

/**
 * Takes one pass into a belief, in place, at constant cost. `othersHeld`: for a miss that one of several links made,
 * the chance that all the others held (1: this passage alone was played). A tempo that is no number changes nothing.
 */
export function observe(belief: Belief, tempo: number, outcome: Outcome, othersHeld = 1): void {
  const played = playableTempo(tempo);
  if (played === null) return;
  const step = subStep(played);
  if (outcome === 'clean') {
    if (step < (belief.from - FOREGONE) * SUBSTEPS) return;
    weigh(belief, step, 0, 1, DRIFT_UP, DRIFT_DOWN);
    if (belief.sum < SURPRISE) doubt(belief);
    return;
  }
  const constant = 1 - GUESS * (1 - othersHeld);
  weigh(belief, step, constant, -othersHeld, DRIFT_UP, DRIFT_DOWN);
  if (belief.sum < SURPRISE) doubt(belief);
  if (outcome === 'broke down') weigh(belief, subStep(played * BROKE_DOWN_AT), constant, -othersHeld, 0, 0);
}

/**
 * Multiplies each cell by `constant + factor * P(clean)`, then moves shares of the result one column up and down (what
 * would leave the grid stays). The sum is then the chance that the pass had. One sweep: this is where a fold of a million passes spends its time.
 */
function weigh(
  belief: Belief,
  step: number,
  constant: number,
  factor: number,
  up: number,
  down: number,
): void {
  const { cells, from, to } = belief;
  const phase = step % SUBSTEPS;
  const start = POINTS - (step - phase) / SUBSTEPS;
  const scale = 1 / belief.sum;
  const stay = 1 - up - down;
  const times = factor * scale;
  const plus = constant * scale;
  let sum = 0;
  for (let row = 0; row < SLOPES.length; row++) {
    const first = row * POINTS;
    const table = (row * SUBSTEPS + phase) * ROW + start;
    let before = 0;
    let here = cells[first + from]! * (plus + times * CLEAN[table + from]!);
    const edge = from > 0 ? first + from - 1 : first;
    const lowest = down * here;
    for (let point = from + 1; point < to; point++) {
      const after = cells[first + point]! * (plus + times * CLEAN[table + point]!);
      sum += cells[first + point - 1] = stay * here + up * before + down * after;
      before = here;
      here = after;
    }
    const kept = to < POINTS ? stay : stay + up;
    sum += cells[first + to - 1] = kept * here + up * before;
    if (to < POINTS) sum += cells[first + to] = up * here;
    cells[edge] = from > 0 ? lowest : cells[edge]! + lowest;
    sum += lowest;
  }
  belief.sum = sum;
  belief.from = Math.max(0, from - 1);
  belief.to = Math.min(POINTS, to + 1);
  trim(belief);
}

function doubt(belief: Belief): void {
  const { cells, from, to } = belief;
  for (const [row, weight] of SLOPE_WEIGHTS.entries()) {
    const first = row * POINTS;
    const share = (RESTART * belief.sum * weight) / POINTS;
    cells.fill(0, first, first + from);
    cells.fill(0, first + to, first + POINTS);
    for (let cell = first; cell < first + POINTS; cell++) cells[cell] = cells[cell]! + share;
  }
  belief.from = 0;
  belief.to = POINTS;
  belief.sum *= 1 + RESTART;
}

/** Lets go of the columns at the edges that hold next to nothing. */
function trim(belief: Belief): void {
  const least = NEGLIGIBLE * belief.sum;
  while (belief.from < belief.to - 1 && columnOf(belief, belief.from) < least) {
    belief.sum -= columnOf(belief, belief.from++);
  }
  while (belief.to > belief.from + 1 && columnOf(belief, belief.to - 1) < least) {
    belief.sum -= columnOf(belief, --belief.to);
  }
}

function columnOf({ cells }: Belief, point: number): number {
  return cells[point]! + cells[point + POINTS]! + cells[point + 2 * POINTS]! + cells[point + 3 * POINTS]!;
}

/**
 * Time away, in place: the belief sinks by `sink` and widens by `variance`, both in log tempo (see `fading`), exactly
 * so in its first two moments. Two recursive sweeps, one up and one down, each a geometric kernel with mean m and variance
 * m * (m + 1) columns, do any amount at one cost. What would leave the grid is shared out over the rest.
 */
export function passTime(belief: Belief, sink: number, variance: number): void {
  const shift = Math.max(0, sink) / SPACING;
  const wanted = Math.max(0, variance) / SPACING ** 2;
  const up = Math.max(0, (Math.sqrt(Math.max(0, 1 - shift ** 2 + 2 * wanted)) - 1 - shift) / 2);
  const down = up + shift;
  const { cells } = belief;
  const from = Math.max(0, belief.from - Math.ceil(12 * down + 4));
  const to = Math.min(POINTS, belief.to + Math.ceil(12 * up + 4));
  const [riseShare, fallShare] = [up / (1 + up), down / (1 + down)];
  belief.sum = 0;
  for (let first = 0; first < CELLS; first += POINTS) {
    cells.fill(0, first + from, first + belief.from);
    cells.fill(0, first + belief.to, first + to);
    let carried = 0;
    for (let cell = first + from; cell < first + to; cell++) {
      carried = riseShare * carried + (1 - riseShare) * cells[cell]!;
      cells[cell] = carried;
    }
    carried = 0;
    for (let cell = first + to - 1; cell >= first + from; cell--) {
      carried = fallShare * carried + (1 - fallShare) * cells[cell]!;
      cells[cell] = carried;
      belief.sum += carried;
    }
  }
  belief.from = from;
  belief.to = to;
  trim(belief);
}

/** The predicted chance of a clean pass at a tempo: the mean over the belief. Never rises with the tempo. */
export function chanceOfClean(belief: Belief, tempo: number): number {
  return chanceAtStep(belief, subStep(playableTempo(tempo) ?? TEMPO_MAX));
}

function chanceAtStep({ cells, from, to, sum }: Belief, step: number): number {
  const phase = step % SUBSTEPS;
  const start = POINTS - (step - phase) / SUBSTEPS;
  let chance = 0;
  for (let row = 0; row < SLOPES.length; row++) {
    const first = row * POINTS;
    const table = (row * SUBSTEPS + phase) * ROW + start;
    for (let point = from; point < to; point++) chance += cells[first + point]! * CLEAN[table + point]!;
  }
  return chance / sum;
}

/** The median of the settled tempo and the interval that holds it 80 times in 100. */
export function settledTempo(belief: Belief): SettledTempo {
  return { low: quantile(belief, 0.1), tempo: quantile(belief, 0.5), high: quantile(belief, 0.9) };
}

/** Each grid point stands for the stretch half way to its neighbours. */
function quantile(belief: Belief, share: number): number {
  const mass = share * belief.sum;
  let point = belief.from;
  let below = 0;
  let column = columnOf(belief, point);
  while (point < belief.to - 1 && below + column < mass) {
    below += column;
    column = columnOf(belief, ++point);
  }
  const tempo = GRID_LOW * Math.exp((point - 0.5 + (mass - below) / column) * SPACING);
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
