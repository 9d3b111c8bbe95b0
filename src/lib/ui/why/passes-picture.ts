import { levelOf } from '$lib/core/practice/level';

export const WIDTH = 358;
export const HEIGHT = 172;
/** The board's box: above the line of days. */
const FOOT = 148;
const SIDE = 10;
const STEP_MAX = 15;
/** Beside the box on the right stands the estimate's interval. */
const RIGHT = 26;

export interface PassMark<Outcome> {
  x: number;
  y: number;
  outcome: Outcome;
}

export interface DayMark {
  /** Where the day's passes begin and end. */
  from: number;
  to: number;
  day: number;
}

/**
 * Where passes stand in the picture: in the order in which they were played, the higher the faster, on the scale of the
 * measure tile (LOOK.md section 2), days beside one another.
 */
export function drawPasses<Outcome>(
  passes: readonly { tempo: number; day: number; outcome: Outcome }[],
  goal: number,
): { marks: PassMark<Outcome>[]; days: DayMark[] } {
  const days = [...new Set(passes.map(({ day }) => day))];
  const gaps = Math.max(0, days.length - 1);
  const room = WIDTH - 2 * SIDE - RIGHT;
  const step = Math.min(STEP_MAX, room / Math.max(1, passes.length - 1 + gaps));
  const marks: PassMark<Outcome>[] = [];
  const dayMarks: DayMark[] = [];
  for (const [index, { tempo, day, outcome }] of passes.entries()) {
    const x = SIDE + step * (index + days.indexOf(day));
    marks.push({ x, y: heightOf(tempo, goal), outcome });
    const last = dayMarks.at(-1);
    if (last?.day === day) last.to = x;
    else dayMarks.push({ from: x, to: x, day });
  }
  return { marks, days: dayMarks };
}

/** The height of a tempo in the picture, from its top. */
export function heightOf(tempo: number, goal: number): number {
  return FOOT * (1 - levelOf(tempo, goal));
}
