/** White noise from -1 to 1, the same each time: a linear congruential generator (Numerical Recipes' constants, from memory). */
export function noise(): () => number {
  let state = 1;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}

/** A band-pass of two poles with a zero at 0 Hz and at half the rate; its gain at the centre is about 1. */
export function resonator(sampleRate: number, centreHz: number, widthHz: number): (input: number) => number {
  const radius = Math.exp((-Math.PI * widthHz) / sampleRate);
  const turn = 2 * radius * Math.cos((2 * Math.PI * centreHz) / sampleRate);
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  return (input) => {
    const output = ((1 - radius * radius) / 2) * (input - x2) + turn * y1 - radius * radius * y2;
    [x2, x1, y2, y1] = [x1, input, y1, output];
    return output;
  };
}
