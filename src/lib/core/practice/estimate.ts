import { TEMPO_MAX, TEMPO_MIN } from '../rhythm/meter';
import type { Outcome } from './records';
import type { SettledTempo } from './standing';

/**
 * The belief about one passage: a weight for each pair of slope and settled tempo, on a grid that is the same for
 * every passage. Column by settled tempo, POINTS of them, equally spaced in log tempo from GRID_LOW to GRID_HIGH, each of
 * one cell a slope. The grid is in absolute tempo, so that a goal that is moved later changes no estimate. Plain data.
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
/** Per unit of log tempo. At 7, from 17 in 20 to an even chance takes a tempo a quarter faster. */
const SLOPES = [7, 11, 17, 26] as const;
const SLOPE_WEIGHTS = [0.15, 0.4, 0.3, 0.15] as const;
/** What no model of a learner catches widens an interval by this to each side, log tempo: then 80 in 100 hold the truth in the bench. */
const UNMODELLED = 0.03;
/** A miss that has nothing to do with the tempo: a sneeze, a slip of the finger on the glass. */
const LAPSE = 0.02;
/** A pass marked clean that was not. */
const GUESS = 0.02;
/** Tempos are looked up in steps of an eighth of the grid's (under half a percent). */
const SUBSTEPS = 8;
/**
 * What one pass may move the truth, as chances of one grid step up and down: hands learn while they play. Chosen by the
 * bench of simulated learners: with less, estimates lag behind a learner who gains; more blunts them for a steady one.
 */
const DRIFT_UP = 0.1;
const DRIFT_DOWN = 0.02;
/** How far below the settled tempo a pass still teaches, log tempo. */
const TEACHES = 0.15;
/** Columns at the edges with less than this share of the weight are let go; `DRIFT_*` wins one back with every pass. */
const NEGLIGIBLE = 1e-4;
/** A clean pass so many columns (23 %) below everything that is believed possible says nothing new, and a miss there teaches nothing. */
const FOREGONE = 6;
/** A pass that was given less of a chance than this puts the belief itself in doubt: */
const SURPRISE = 0.1;
/** then this share of the weight goes back to all tempos alike, so that a few such passes in a row move it there. */
const RESTART = 0.01;
/** A breakdown is also a miss at this share of the tempo. */
const BROKE_DOWN_AT = 0.92;

/** Cells a column. The sweeps below take the four slopes side by side: their sums do not wait for each other. */
const WIDE = 4;
const CELLS = POINTS * WIDE;
/** The chances of one phase. */
const ROW = 2 * POINTS * WIDE;
const CLEAN = cleanTable();

/** CLEAN[phase * ROW + (point - base + POINTS) * WIDE + slope]: the chance at `base + phase / SUBSTEPS` grid steps. */
function cleanTable(): Float64Array {
  const anchor = (SETTLED_CHANCE - GUESS) / (1 - GUESS - LAPSE);
  const logit = Math.log(anchor / (1 - anchor));
  const table = new Float64Array(SUBSTEPS * ROW);
  for (const [row, slope] of SLOPES.entries()) {
    for (let phase = 0; phase < SUBSTEPS; phase++) {
      for (let place = 0; place < 2 * POINTS; place++) {
        const above = (phase / SUBSTEPS - (place - POINTS)) * SPACING;
        const held = 1 / (1 + Math.exp(slope * above - logit));
        table[phase * ROW + place * WIDE + row] = GUESS + (1 - GUESS - LAPSE) * held;
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
  let sum = 0;
  for (let point = 0; point < POINTS; point++) {
    const height = Math.exp(-0.5 * ((point - centre) / width) ** 2);
    for (let cell = point * WIDE, row = 0; row < WIDE; cell++, row++) {
      cells[cell] = SLOPE_WEIGHTS[row]! * height;
      sum += cells[cell]!;
    }
  }
  const belief = { cells, from: 0, to: POINTS, sum };
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
  const isForegone = step < (belief.from - FOREGONE) * SUBSTEPS;
  if (outcome === 'clean') {
    if (isForegone) return;
    weigh(belief, step, 0, 1, driftUp(belief, step), DRIFT_DOWN);
    if (belief.sum < SURPRISE) doubt(belief);
    return;
  }
  const constant = 1 - GUESS * (1 - othersHeld);
  weigh(belief, step, constant, -othersHeld, isForegone ? 0 : driftUp(belief, step), DRIFT_DOWN);
  if (belief.sum < SURPRISE) doubt(belief);
  if (outcome === 'broke down') weigh(belief, subStep(played * BROKE_DOWN_AT), constant, -othersHeld, 0, 0);
}

/** What is played far below its settled tempo teaches little: without this, clean passes at the goal would raise it for ever. */
function driftUp({ from, to }: Belief, step: number): number {
  const below = Math.max(0, ((from + to - 1) / 2 - step / SUBSTEPS) * SPACING);
  return DRIFT_UP * Math.exp(-((below / TEACHES) ** 2) / 2);
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
  const scale = 1 / belief.sum;
  const stay = 1 - up - down;
  const times = factor * scale;
  const plus = constant * scale;
  const end = to * WIDE;
  let at = from * WIDE;
  let table = tableAt(step, phase) + at;
  let [before0, before1, before2, before3] = [0, 0, 0, 0];
  let here0 = cells[at]! * (plus + times * CLEAN[table]!);
  let here1 = cells[at + 1]! * (plus + times * CLEAN[table + 1]!);
  let here2 = cells[at + 2]! * (plus + times * CLEAN[table + 2]!);
  let here3 = cells[at + 3]! * (plus + times * CLEAN[table + 3]!);
  const [low0, low1, low2, low3] = [down * here0, down * here1, down * here2, down * here3];
  let [sum0, sum1, sum2, sum3] = [low0, low1, low2, low3];
  for (at += WIDE, table += WIDE; at < end; at += WIDE, table += WIDE) {
    const after0 = cells[at]! * (plus + times * CLEAN[table]!);
    const after1 = cells[at + 1]! * (plus + times * CLEAN[table + 1]!);
    const after2 = cells[at + 2]! * (plus + times * CLEAN[table + 2]!);
    const after3 = cells[at + 3]! * (plus + times * CLEAN[table + 3]!);
    sum0 += cells[at - 4] = stay * here0 + up * before0 + down * after0;
    sum1 += cells[at - 3] = stay * here1 + up * before1 + down * after1;
    sum2 += cells[at - 2] = stay * here2 + up * before2 + down * after2;
    sum3 += cells[at - 1] = stay * here3 + up * before3 + down * after3;
    before0 = here0;
    before1 = here1;
    before2 = here2;
    before3 = here3;
    here0 = after0;
    here1 = after1;
    here2 = after2;
    here3 = after3;
  }
  const kept = to < POINTS ? stay : stay + up;
  sum0 += cells[end - 4] = kept * here0 + up * before0;
  sum1 += cells[end - 3] = kept * here1 + up * before1;
  sum2 += cells[end - 2] = kept * here2 + up * before2;
  sum3 += cells[end - 1] = kept * here3 + up * before3;
  if (to < POINTS) {
    sum0 += cells[end] = up * here0;
    sum1 += cells[end + 1] = up * here1;
    sum2 += cells[end + 2] = up * here2;
    sum3 += cells[end + 3] = up * here3;
  }
  lay(cells, from, [low0, low1, low2, low3]);
  belief.sum = sum0 + sum1 + sum2 + sum3;
  belief.from = Math.max(0, from - 1);
  belief.to = Math.min(POINTS, to + 1);
  trim(belief);
}

/** What moves down out of the lowest column: a column of its own, or back where the grid ends. */
function lay(cells: Float32Array, from: number, lowest: readonly [number, number, number, number]): void {
  const first = Math.max(0, from - 1) * WIDE;
  for (let row = 0; row < WIDE; row++) {
    cells[first + row] = (from > 0 ? 0 : cells[first + row]!) + lowest[row]!;
  }
}

/** Where CLEAN has the chances at a step, less the place of the column that is looked up. */
function tableAt(step: number, phase: number): number {
  return phase * ROW + (POINTS - (step - phase) / SUBSTEPS) * WIDE;
}

function doubt(belief: Belief): void {
  const { cells, from, to } = belief;
  cells.fill(0, 0, from * WIDE);
  cells.fill(0, to * WIDE);
  for (const [row, weight] of SLOPE_WEIGHTS.entries()) {
    const share = (RESTART * belief.sum * weight) / POINTS;
    for (let cell = row; cell < CELLS; cell += WIDE) cells[cell] = cells[cell]! + share;
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
  const at = point * WIDE;
  return cells[at]! + cells[at + 1]! + cells[at + 2]! + cells[at + 3]!;
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
  cells.fill(0, from * WIDE, belief.from * WIDE);
  cells.fill(0, belief.to * WIDE, to * WIDE);
  flow(cells, from * WIDE, to * WIDE, WIDE, up / (1 + up));
  belief.sum = flow(cells, (to - 1) * WIDE, (from - 1) * WIDE, -WIDE, down / (1 + down));
  belief.from = from;
  belief.to = to;
  trim(belief);
}

/** One sweep: each column keeps its share and passes the rest on. Returns the sum of what it wrote. */
function flow(cells: Float32Array, start: number, end: number, stride: number, share: number): number {
  const keep = 1 - share;
  let [carried0, carried1, carried2, carried3] = [0, 0, 0, 0];
  let [sum0, sum1, sum2, sum3] = [0, 0, 0, 0];
  for (let at = start; at !== end; at += stride) {
    sum0 += cells[at] = carried0 = share * carried0 + keep * cells[at]!;
    sum1 += cells[at + 1] = carried1 = share * carried1 + keep * cells[at + 1]!;
    sum2 += cells[at + 2] = carried2 = share * carried2 + keep * cells[at + 2]!;
    sum3 += cells[at + 3] = carried3 = share * carried3 + keep * cells[at + 3]!;
  }
  return sum0 + sum1 + sum2 + sum3;
}

/** The predicted chance of a clean pass at a tempo: the mean over the belief. Never rises with the tempo. */
export function chanceOfClean(belief: Belief, tempo: number): number {
  return chanceAtStep(belief, subStep(playableTempo(tempo) ?? TEMPO_MAX));
}

function chanceAtStep({ cells, from, to, sum }: Belief, step: number): number {
  const table = tableAt(step, step % SUBSTEPS);
  let [chance0, chance1, chance2, chance3] = [0, 0, 0, 0];
  for (let at = from * WIDE; at < to * WIDE; at += WIDE) {
    chance0 += cells[at]! * CLEAN[table + at]!;
    chance1 += cells[at + 1]! * CLEAN[table + at + 1]!;
    chance2 += cells[at + 2]! * CLEAN[table + at + 2]!;
    chance3 += cells[at + 3]! * CLEAN[table + at + 3]!;
  }
  return (chance0 + chance1 + chance2 + chance3) / sum;
}

/** The median of the settled tempo and the interval that holds it 80 times in 100. */
export function settledTempo(belief: Belief): SettledTempo {
  const upTo = { point: belief.from, below: 0 };
  return {
    low: quantile(belief, upTo, 0.1, -UNMODELLED),
    tempo: quantile(belief, upTo, 0.5, 0),
    high: quantile(belief, upTo, 0.9, UNMODELLED),
  };
}

/** A column, and the weight of all before it. */
interface UpTo {
  point: number;
  below: number;
}

/**
 * Each grid point stands for the stretch half way to its neighbours. `upTo` is where a smaller quantile was found, and is moved on.
 * `shift` in log tempo; the result can be played.
 */
function quantile(belief: Belief, upTo: UpTo, share: number, shift: number): number {
  const mass = share * belief.sum;
  let column = columnOf(belief, upTo.point);
  while (upTo.point < belief.to - 1 && upTo.below + column < mass) {
    upTo.below += column;
    column = columnOf(belief, ++upTo.point);
  }
  const place = upTo.point - 0.5 + (mass - upTo.below) / column;
  const tempo = GRID_LOW * Math.exp(place * SPACING + shift);
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
