/**
 * Seeded chance for the laws: sfc32 of Chris Doty-Humphrey's PractRand 0.94 (public domain), seeded from a hash
 * of words (FNV-1a, Fowler, Noll & Vo) and run past its first twelve numbers, as PractRand does. [from memory]
 */

/**
 * @typedef {object} Random
 * @property {() => number} next uniform, 0 included, 1 not
 * @property {(low: number, high: number) => number} between uniform
 * @property {() => number} normal standard normal, cut off at 2.2 (a link past that would decide a tune alone)
 * @property {(median: number, spread: number) => number} scaled log-normal; `spread` in natural logs
 * @property {() => Random} copy goes on with the same numbers, on its own
 */

const NORMAL_LIMIT = 2.2;

/**
 * A 32-bit hash.
 * @param {string} words
 * @param {number} basis
 */
function hash(words, basis) {
  let value = basis | 0;
  for (let index = 0; index < words.length; index++) {
    value = Math.imul(value ^ words.charCodeAt(index), 16777619);
  }
  return value;
}

/**
 * sfc32 from the state that is given.
 * @param {number} a
 * @param {number} b
 * @param {number} c
 * @param {number} counter
 * @returns {Random}
 */
function sfc32(a, b, c, counter) {
  const next = () => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return (sum >>> 0) / 4294967296;
  };
  const normal = () => {
    for (;;) {
      // Box & Muller 1958
      const drawn = Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
      if (Math.abs(drawn) <= NORMAL_LIMIT) return drawn;
    }
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    normal,
    scaled: (median, spread) => median * Math.exp(spread * normal()),
    copy: () => sfc32(a, b, c, counter),
  };
}

/**
 * The same words give the same numbers, whatever else was drawn before.
 * @param {...(string | number)} words
 * @returns {Random}
 */
export function randomFrom(...words) {
  const text = JSON.stringify(words);
  const a = hash(text, 2166136261);
  const b = hash(text, a ^ 0x9e3779b9);
  const random = sfc32(a, b, hash(text, b ^ 0x85ebca6b), 1);
  for (let skipped = 0; skipped < 12; skipped++) random.next();
  return random;
}
