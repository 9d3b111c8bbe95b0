import type { Mark } from '$lib/core/practice/marking';

/** The newest passes that the path shows, the present one included. */
const SHOWN = 12;

export const PATH_WIDTH = 196;
export const PATH_HEIGHT = 124;
const TOP = 28.5;
const FOOT = 109.5;
const MARGIN = 10;
const STEP_MAX = 21.5;

export interface PathSquare {
  x: number;
  y: number;
  mark: Mark;
}

export interface ClimbDrawing {
  squares: PathSquare[];
  now: { x: number; y: number };
  /** The stepped line through all of them, as an SVG path. */
  way: string;
}

/**
 * Where the squares of a climb stand on a field of PATH_WIDTH by PATH_HEIGHT: time to the right, log tempo upwards, the
 * goal of the drill at the line near the top. Keeps the newest passes.
 */
export function drawClimb(
  passes: readonly { tempo: number; mark: Mark }[],
  nowTempo: number,
  toward: number,
): ClimbDrawing {
  const shown = passes.slice(1 - SHOWN);
  const tempos = [...shown.map(({ tempo }) => tempo), nowTempo];
  const low = Math.min(...tempos, toward * 0.8);
  const high = Math.max(toward, low * 1.01);
  const step = Math.min(STEP_MAX, (PATH_WIDTH - 2 * MARGIN) / Math.max(1, SHOWN - 1));
  const y = (tempo: number): number => {
    const height = (Math.log(tempo) - Math.log(low)) / (Math.log(high) - Math.log(low));
    return FOOT - Math.min(1.15, height) * (FOOT - TOP);
  };
  const points = tempos.map((tempo, index) => ({ x: MARGIN + index * step, y: y(tempo) }));
  const now = points.at(-1) ?? { x: MARGIN, y: FOOT };
  return {
    squares: shown.map(({ mark }, index) => ({ x: points[index]?.x ?? 0, y: points[index]?.y ?? 0, mark })),
    now,
    way: points
      .map(({ x, y: height }, index) => {
        const before = points[index - 1];
        if (!before) return `M${x} ${height}`;
        return `H${(before.x + x) / 2}V${height}H${x}`;
      })
      .join(''),
  };
}
