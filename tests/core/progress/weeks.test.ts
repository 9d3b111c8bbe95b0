import { describe, expect, it } from 'vitest';
import type { Pass } from '$lib/core/practice/records';
import { WeekTally } from '$lib/core/progress/weeks';
import { DAY_MS } from '$lib/core/time/moment';
import { NOW, passagesOf, tuneOf } from '../plan/made-tunes';

const tune = tuneOf({ form: 'A', counts: [2] });
const passage = passagesOf(tune).figures[0]!;

function sitting(id: string, at: number, tempos: readonly number[], gapSec: number, misses = 0) {
  const moment = { at, offsetMin: NOW.offsetMin };
  const drill = { id: `${id}-drill`, sittingId: id, passage, climb: 'steady' as const, ...moment };
  const log = tempos.map((tempo, index): Pass => ({
    ...{ kind: 'pass', id: `${id}-${index}`, drillId: drill.id, tempo, fromMemory: true, missAt: null },
    ...{ outcome: index < misses ? 'stumbled' : 'clean', offsetMin: NOW.offsetMin },
    at: at + index * gapSec * 1000,
  }));
  return { drills: [drill], log };
}

function weeksOf(sittings: readonly ReturnType<typeof sitting>[], tuneId: string | null = null) {
  const tally = new WeekTally([tune], 4);
  tally.add(sittings, NOW);
  return tally.weeks(tuneId);
}

describe('WeekTally', () => {
  it('adds the passes up and caps the pauses between them', () => {
    // two beats at 60 are 2 s; passes 5 s apart leave 3 s between them: 2 + 5 + 5 = 12 s
    const [week] = weeksOf([sitting('a', NOW.at, [60, 60, 60], 5, 1)]);
    expect(week?.minutes).toBeCloseTo(12 / 60, 10);
    expect(week).toMatchObject({ passes: 3, clean: 2, cleanShare: 2 / 3, date: '2026-11-23' });
    // an hour's pause counts as 20 s: 2 + (2 + 20) = 24 s
    const [slow] = weeksOf([sitting('a', NOW.at, [60, 60], 3600)]);
    expect(slow?.minutes).toBeCloseTo(24 / 60, 10);
  });

  it('keeps the weeks without practice, and counts one record once', () => {
    const early = sitting('a', NOW.at - 21 * DAY_MS, [60], 5);
    const weeks = weeksOf([early, early, sitting('b', NOW.at, [60], 5)]);
    expect(weeks.map(({ passes }) => passes)).toEqual([1, 0, 0, 1]);
    expect(weeks[1]?.cleanShare).toBeNull();
  });

  it('adds up sitting by sitting to the same, and goes on from what was kept', () => {
    const all = [sitting('a', NOW.at - 9 * DAY_MS, [60, 50], 5), sitting('b', NOW.at, [60], 5, 1)];
    const first = new WeekTally([tune], 4);
    first.add(all.slice(0, 1), NOW);
    const next = new WeekTally([tune], 4, structuredClone(first.keep()));
    next.add(all.slice(1), NOW);
    expect(next.weeks()).toEqual(weeksOf(all));
    expect(next.passes(tune.id)).toBe(3);
    expect(first.passes(tune.id)).toBe(2);
  });

  it('takes a clock that ran ahead for now', () => {
    expect(weeksOf([sitting('a', NOW.at + 5000 * DAY_MS, [60], 5)])).toMatchObject([{ date: '2026-11-23' }]);
  });

  it('can look at one tune', () => {
    expect(weeksOf([sitting('a', NOW.at, [60], 5)], 'another')).toEqual([]);
  });
});
