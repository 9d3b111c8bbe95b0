import { describe, expect, it } from 'vitest';
import { isStale, lastMoment, minutesSpent, type SittingSoFar } from '../../../src/lib/core/practice/sitting';
import { HOUR_MS, MINUTE_MS } from '../../../src/lib/core/time/moment';

/** 2026-11-25, 19:00 in Central Europe. */
const BEGAN = { at: Date.UTC(2026, 10, 25, 18), offsetMin: 60 };
const after = (minutes: number): typeof BEGAN => ({ ...BEGAN, at: BEGAN.at + minutes * MINUTE_MS });

/** A sitting with a pass at each of these minutes. */
function sittingWith(...minutes: number[]): SittingSoFar {
  return {
    sitting: { ...BEGAN, id: 's', minutes: 20, tuning: null, hands: 'fresh', note: '', origin: 'own' },
    drills: [],
    log: minutes.map((minute, index) => ({
      ...after(minute),
      kind: 'pass' as const,
      id: `p${index}`,
      drillId: 'd',
      tempo: 80,
      outcome: 'clean' as const,
      fromMemory: true,
      missAt: null,
    })),
  };
}

describe('the minutes spent in a sitting', () => {
  it('runs with the clock while passes come in', () => {
    expect(minutesSpent(sittingWith(1, 3, 6), after(8))).toBe(8);
  });

  it('counts a long pause as five minutes', () => {
    expect(minutesSpent(sittingWith(1, 2), after(62))).toBe(2 + 5);
  });

  it('stands still while a clock is set back, and never goes below nothing', () => {
    expect(minutesSpent(sittingWith(1, 4), after(-60))).toBe(4);
    expect(minutesSpent(sittingWith(-30), BEGAN)).toBe(0);
  });
});

describe('a sitting that is found open', () => {
  it('goes on within three hours of its last pass', () => {
    expect(isStale(sittingWith(10), after(10 + 179), 4)).toBe(false);
    expect(isStale(sittingWith(10), after(10 + 181), 4)).toBe(true);
  });

  it('ends when the clock was set back by more than three hours, whose passes would stand before its own', () => {
    expect(isStale(sittingWith(200), after(200 - 179), 4)).toBe(false);
    expect(isStale(sittingWith(200), after(200 - 181), 4)).toBe(true);
  });

  it('ends with its practice day, at 04:00 local time', () => {
    const late = { ...sittingWith(), sitting: { ...sittingWith().sitting, at: BEGAN.at + 8 * HOUR_MS } };
    expect(lastMoment(late).at).toBe(BEGAN.at + 8 * HOUR_MS);
    // 03:00 to 03:59 and to 04:01
    expect(isStale(late, after(8 * 60 + 59), 4)).toBe(false);
    expect(isStale(late, after(9 * 60 + 1), 4)).toBe(true);
  });
});
