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

/** The tempo at which such a learner is clean with a given chance (lapses left out). */
export function tempoAtChance({ settled, slope }: LogisticLearner, chance: number): number {
  return settled * Math.exp((Math.log(0.85 / 0.15) - Math.log(chance / (1 - chance))) / slope);
}
