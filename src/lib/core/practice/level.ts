/** Where the goal line crosses a tile, as a share of its height; the rest above is room to overshoot (LOOK.md section 2). */
export const GOAL_LEVEL = 0.72;

/** Tempos at or below this share of the goal leave a tile empty. */
const EMPTY_AT = 0.4;

/**
 * The height of a tile's fill, 0 to 1: logarithmic, so that equal steps of practice look equal (LOOK.md section 2).
 * `null` (never played) is 0. A goal that is not positive gives 0.
 */
export function levelOf(tempo: number | null, goalTempo: number): number {
  if (tempo === null || !(goalTempo > 0) || !(tempo > 0)) return 0;
  const level = (GOAL_LEVEL * Math.log(tempo / (EMPTY_AT * goalTempo))) / Math.log(1 / EMPTY_AT);
  return Math.min(1, Math.max(0, level));
}
