/** Numbers in 0..1 that are the same for the same seed: xorshift32 (Marsaglia 2003, J Stat Softw 8(14) [from memory]). */
export function seeded(seed: number): () => number {
  let state = (Math.imul(seed, 2_654_435_761) ^ 0x9e37_79b9) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
}
