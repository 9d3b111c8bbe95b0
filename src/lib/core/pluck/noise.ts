/** Noise between -1 and 1 that is the same in every browser: a 32-bit xorshift generator (Marsaglia 2003), seed not 0. */
export function seededNoise(length: number, seed: number): Float64Array {
  let state = seed | 0;
  return Float64Array.from({ length }, () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state / 2 ** 31;
  });
}
