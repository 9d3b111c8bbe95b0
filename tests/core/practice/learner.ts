/** A learner whose chance of a clean pass at a tempo follows a logistic curve, for tests. */
export interface LogisticLearner {
  /** The hidden truth: clean 17 times in 20 here. */
  settled: number;
  /** Per unit of log tempo. */
  slope: number;
  /** Chance that a pass goes wrong whatever the tempo. */
  lapse: number;
}

export function chanceFor({ settled, slope, lapse }: LogisticLearner, tempo: number): number {
  const logit = Math.log(0.85 / 0.15);
  return (1 - lapse) / (1 + Math.exp(slope * Math.log(tempo / settled) - logit));
}

/** mulberry32: a small seeded generator, uniform on [0, 1). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The tempo at which such a learner is clean with a given chance (lapses left out). */
export function tempoAtChance({ settled, slope }: LogisticLearner, chance: number): number {
  return settled * Math.exp((Math.log(0.85 / 0.15) - Math.log(chance / (1 - chance))) / slope);
}
