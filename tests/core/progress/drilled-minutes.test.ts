import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drilledMinutes } from '../../../src/lib/core/progress/drilled-minutes';
import { DRILLED, WeekTally, type Week } from '../../../src/lib/core/progress/weeks';
import type { Passage } from '../../../src/lib/core/tune/passage';
import { evening, figure, layerOf, part, seam, sittingOn, testTune, whole } from '../practice/book';

const tune = testTune('Larkspur', 'AB', [4, 4]);
const [first, second] = tune.parts[0]?.measures ?? [];
const phrase: Passage = {
  ...{ kind: 'phrase', tuneId: tune.id, layerId: layerOf(tune) },
  ...{ fromMeasureId: first?.id ?? '', toMeasureId: second?.id ?? '' },
};
const PASSAGES: Record<(typeof DRILLED)[number], Passage> = {
  ...{ figure: figure(tune, 0), seam: seam(tune, 0), phrase },
  ...{ part: part(tune, 'A'), tune: whole(tune) },
};
const NOW = evening(30);

function weeksOf(
  drills: readonly { kind: (typeof DRILLED)[number]; day: number; tempos: number[] }[],
): Week[] {
  const tally = new WeekTally([tune], 4);
  tally.add(
    drills.map(({ kind, day, tempos }, at) =>
      sittingOn(
        String(at),
        PASSAGES[kind],
        day,
        tempos.map((tempo) => ({ tempo })),
      ),
    ),
    NOW,
  );
  return tally.weeks();
}

describe('minutes by what was drilled', () => {
  it('counts the playing and the gaps of each drill to its kind', () => {
    // passes ten seconds apart at 60; first passes play 2, 2, 4, 8 and 16 beats, the whole tune longer than its gap
    const weeks = weeksOf(DRILLED.map((kind) => ({ kind, day: 0, tempos: [60, 60] })));
    expect(weeks).toHaveLength(1);
    const seconds = DRILLED.map((kind) => Math.round((weeks[0]?.minutesOf[kind] ?? 0) * 60));
    expect(seconds).toEqual([2 + 10, 2 + 10, 4 + 10, 8 + 10, 16 + 16]);
  });

  it('rounds to whole minutes that add up, and leaves out what has none', () => {
    const minutesOf = { figure: 10.4, seam: 5.4, phrase: 0.2, part: 3.3, tune: 0 };
    // 19.3 in all is 19; 10 + 5 + 0 + 3 lacks one, which the measures were cut by most
    expect(drilledMinutes([{ minutesOf }])).toEqual([
      { kind: 'figure', minutes: 11 },
      { kind: 'seam', minutes: 5 },
      { kind: 'part', minutes: 3 },
    ]);
    expect(drilledMinutes([])).toEqual([]);
  });

  it('adds up to the minutes of each week, and of all of them, in any log', () => {
    const anyDrill = fc.record({
      kind: fc.constantFrom(...DRILLED),
      day: fc.integer({ min: 0, max: 28 }),
      tempos: fc.array(fc.integer({ min: 20, max: 300 }), { minLength: 1, maxLength: 40 }),
    });
    fc.assert(
      fc.property(fc.array(anyDrill, { maxLength: 12 }), (drills) => {
        const weeks = weeksOf(drills);
        const whole = (of: readonly Week[]) =>
          drilledMinutes(of).reduce((sum, { minutes }) => sum + minutes, 0);
        for (const week of weeks) {
          const sum = DRILLED.reduce((minutes, kind) => minutes + week.minutesOf[kind], 0);
          expect(sum).toBeCloseTo(week.minutes, 9);
          expect(whole([week])).toBe(Math.round(sum));
        }
        const all = weeks.reduce((sum, { minutes }) => sum + minutes, 0);
        expect(Math.abs(whole(weeks) - all)).toBeLessThanOrEqual(0.5 + 1e-9);
      }),
    );
  });
});
