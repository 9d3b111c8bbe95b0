import { describe, expect, it } from 'vitest';
import { GOAL_LEVEL } from '$lib/core/practice/level';
import { drawPasses, HEIGHT, heightOf, WIDTH } from '$lib/ui/why/passes-picture';

const pass = (tempo: number, day: number) => ({ tempo, day, outcome: 'clean' as const });

describe('the picture of the passes', () => {
  it('stands faster passes higher, and the goal at the goal line', () => {
    expect(heightOf(80, 100)).toBeLessThan(heightOf(70, 100));
    const foot = heightOf(40, 100);
    expect((foot - heightOf(100, 100)) / foot).toBeCloseTo(GOAL_LEVEL, 6);
  });

  it('keeps any number of passes inside, in their order, the days apart', () => {
    for (const count of [1, 2, 24, 300]) {
      const passes = Array.from({ length: count }, (_, index) =>
        pass(60 + (index % 9), Math.floor(index / 7)),
      );
      const { marks, days } = drawPasses(passes, 100);
      const xs = marks.map(({ x }) => x);
      expect(xs).toEqual(xs.toSorted((a, b) => a - b));
      expect(Math.min(...xs)).toBeGreaterThan(0);
      expect(Math.max(...xs)).toBeLessThan(WIDTH - 26);
      expect(marks.every(({ y }) => y >= 0 && y <= HEIGHT)).toBe(true);
      expect(days.map(({ day }) => day)).toEqual([...new Set(passes.map(({ day }) => day))]);
    }
  });
});
