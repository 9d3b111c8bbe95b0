/** A settled tempo at the end of a practice day; the interval holds it 80 times in 100. */
export interface GrowthPoint {
  tempo: number;
  low: number;
  high: number;
}

/**
 * Tempo over practice days as a saturating exponential, `T(n) = plateau - (plateau - start) * e^(-rate * n)` with n
 * from 0 at the first point (the form that Heathcote, Brown & Mewhort 2000, Psychon Bull Rev 7:185 found to fit
 * individuals best [looked up: abstract]). `plateau >= start`: more practice never lowers it.
 */
export interface Growth {
  start: number;
  plateau: number;
  /** Per practice day, more than 0. */
  rate: number;
}

export interface GrowthFit {
  growth: Growth;
  /** Other curves that the data do not rule out (their profile likelihood at 80 %), for a band. */
  plausible: readonly Growth[];
  /** Share of the weighted variance that the curve accounts for, 0 to 1. */
  explained: number;
}

/** Three parameters leave nothing to judge the fit by below five points. */
export const FIT_POINTS_MIN = 5;

/** Rates tried, per practice day: from 1 in 200 (a line, within any history we show) to e-fold in half a day. */
const RATE_LOW = 0.005;
const RATE_HIGH = 2;
const RATES = 60;
/** The standard normal quantile of 0.9: an 80 % interval is this many standard deviations to each side. */
const Z90 = 1.2816;
/** The chi-squared quantile of 0.8 with one degree of freedom [computed: Z90 squared]. */
const CHI80 = Z90 * Z90;

/** The tempo of a curve after `days` practice days. */
export function growthAt({ start, plateau, rate }: Growth, days: number): number {
  return plateau - (plateau - start) * Math.exp(-rate * days);
}

/** The weighted least-squares curve through the points, one practice day apart; `null` below FIT_POINTS_MIN points. */
export function fitGrowth(points: readonly GrowthPoint[]): GrowthFit | null {
  const usable = points.filter(({ tempo, low, high }) => [tempo, low, high].every(Number.isFinite));
  if (usable.length < FIT_POINTS_MIN) return null;
  const weights = usable.map(({ low, high }) => 1 / Math.max(0.5, (high - low) / (2 * Z90)) ** 2);
  const tempos = usable.map(({ tempo }) => tempo);
  const tried = Array.from({ length: RATES }, (_, step) => {
    const rate = RATE_LOW * (RATE_HIGH / RATE_LOW) ** (step / (RATES - 1));
    return fitAtRate(tempos, weights, rate);
  });
  const best = sharpened(
    tried.reduce((a, b) => (b.error < a.error ? b : a)),
    (rate) => fitAtRate(tempos, weights, rate),
  );
  const flat = errorOf(tempos, weights, {
    start: mean(tempos, weights),
    plateau: mean(tempos, weights),
    rate: 1,
  });
  const noise = best.error / Math.max(1, tempos.length - 3);
  const allowed = best.error + CHI80 * Math.max(noise, 1e-9);
  return {
    growth: best.growth,
    plausible: tried.filter(({ error }) => error <= allowed).map(({ growth }) => growth),
    explained: flat > 0 ? Math.max(0, 1 - best.error / flat) : 0,
  };
}

interface Tried {
  growth: Growth;
  error: number;
}

/** The best rate between the neighbours of the best one tried, by golden sections (Kiefer 1953 [from memory]). */
function sharpened(best: Tried, fit: (rate: number) => Tried): Tried {
  const step = Math.log(RATE_HIGH / RATE_LOW) / (RATES - 1);
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = Math.max(RATE_LOW, best.growth.rate * Math.exp(-step));
  let high = Math.min(RATE_HIGH, best.growth.rate * Math.exp(step));
  let [left, right] = [fit(high - golden * (high - low)), fit(low + golden * (high - low))];
  for (let turn = 0; turn < 30; turn++) {
    if (left.error < right.error) {
      high = right.growth.rate;
      right = left;
      left = fit(high - golden * (high - low));
    } else {
      low = left.growth.rate;
      left = right;
      right = fit(low + golden * (high - low));
    }
  }
  return [best, left, right].reduce((a, b) => (b.error < a.error ? b : a));
}

/** With the rate given the curve is a straight line in `e^(-rate * n)`, so that its best ends have a closed form. */
function fitAtRate(tempos: readonly number[], weights: readonly number[], rate: number): Tried {
  const decay = tempos.map((_, day) => Math.exp(-rate * day));
  const [decayMean, tempoMean] = [mean(decay, weights), mean(tempos, weights)];
  let [across, along] = [0, 0];
  for (const [day, tempo] of tempos.entries()) {
    const offset = decay[day]! - decayMean;
    across += weights[day]! * offset * (tempo - tempoMean);
    along += weights[day]! * offset * offset;
  }
  const slope = along > 0 ? Math.min(0, across / along) : 0;
  const plateau = tempoMean - slope * decayMean;
  const growth = { start: plateau + slope, plateau, rate };
  return { growth, error: errorOf(tempos, weights, growth) };
}

function errorOf(tempos: readonly number[], weights: readonly number[], growth: Growth): number {
  return tempos.reduce((sum, tempo, day) => sum + weights[day]! * (tempo - growthAt(growth, day)) ** 2, 0);
}

function mean(values: readonly number[], weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return values.reduce((sum, value, at) => sum + value * weights[at]!, 0) / total;
}
