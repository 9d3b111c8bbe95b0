/**
 * Curves that the laws share. Each chance is a function of log tempo over the tempo that comes out clean 85 times
 * in 100, and each has another shape, so that nothing proves itself on one curve alone.
 */

/** Where the standard normal distribution reaches 0.85. */
const NORMAL_85 = 1.0364333894937898;
/** Where `1 - exp(-exp(z))` is 0.85, and where `exp(-exp(z))` is. */
const LATE_85 = Math.log(-Math.log(0.15));
const EARLY_85 = Math.log(-Math.log(0.85));

/**
 * Standard normal distribution function, |error| < 7.5e-8: Abramowitz & Stegun 1964, 26.2.17. [from memory]
 * @param {number} z
 */
export function normalBelow(z) {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const sum =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = 0.3989422804014327 * Math.exp(-0.5 * z * z) * sum;
  return z > 0 ? 1 - tail : tail;
}

/**
 * Normal ogive.
 * @param {number} over log tempo above the 85 % tempo
 * @param {number} width standard deviation in log tempo
 */
export const ogive = (over, width) => normalBelow(NORMAL_85 - over / width);

/**
 * Weibull's curve in log tempo: trouble begins early and gathers slowly.
 * @param {number} over log tempo above the 85 % tempo
 * @param {number} width in log tempo
 */
export const earlyTrouble = (over, width) => Math.exp(-Math.exp(EARLY_85 + over / width));

/**
 * Weibull's curve turned round: safe until close to the limit.
 * @param {number} over log tempo above the 85 % tempo
 * @param {number} width in log tempo
 */
export const lateTrouble = (over, width) => 1 - Math.exp(-Math.exp(LATE_85 - over / width));

/**
 * What one pass teaches at this tempo, 1 at best: little when far too easy, less still when far too fast (the
 * challenge point: Guadagnoli & Lee 2004, J Motor Behavior 36, 212-224: useful difficulty depends on skill; no
 * number given [looked up: abstract]). Widths are ours.
 * @param {number} over log tempo above the 85 % tempo
 * @param {number} easySide width on the slow side, log tempo
 * @param {number} hardSide width on the fast side, log tempo
 */
export function challenge(over, easySide, hardSide) {
  const distance = over / (over < 0 ? easySide : hardSide);
  return 0.04 + 0.96 * Math.exp(-0.5 * distance * distance);
}

/**
 * Share that is left after a gap: slow at first sight, slower later (the power law of forgetting).
 * @param {number} days
 * @param {number} scale days
 * @param {number} power
 */
export function leftAfter(days, scale, power) {
  if (days <= 0) return 1;
  // within the hour, which is asked for at every link of every pass, to the first order: off by less than 1e-5
  return days < 0.05 ? 1 - (power * days) / scale : (1 + days / scale) ** -power;
}
