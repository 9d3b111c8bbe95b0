import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FORECAST_DAYS, forecastOf } from '$lib/core/progress/forecast';
import { progressSentence } from '$lib/core/progress/progress-sentence';

const point = (tempo: number) => ({ tempo, low: tempo - 3, high: tempo + 3 });
const rising = (days: number, plateau = 110) =>
  Array.from({ length: days }, (_, day) => point(plateau - 50 * Math.exp(-0.15 * day)));

describe('forecastOf', () => {
  it('wants five practice days', () => {
    expect(forecastOf(rising(4), 100)).toEqual({ kind: 'not enough yet', days: 4, needed: 5 });
    expect(forecastOf([], 100)).toEqual({ kind: 'not enough yet', days: 0, needed: 5 });
  });

  it('says when a tune is at its goal already', () => {
    expect(forecastOf([point(101)], 100)).toEqual({ kind: 'at goal' });
  });

  it('says when the goal would come, with the true day inside its span', () => {
    // 110 - 50 e^(-0.15 d) passes 100 at d = ln(5) / 0.15 = 10.7, the 11th day: four after the newest, the 7th
    const forecast = forecastOf(rising(8), 100);
    expect(forecast).toMatchObject({ kind: 'heading up', toGoal: { likely: 4 } });
    if (forecast.kind !== 'heading up') return;
    expect(forecast.toGoal.soonest).toBeLessThanOrEqual(4);
    for (const { low, tempo, high } of forecast.band) {
      expect(low).toBeLessThanOrEqual(tempo);
      expect(high).toBeGreaterThanOrEqual(tempo);
    }
  });

  it('does not promise a goal above the plateau', () => {
    const forecast = forecastOf(rising(30, 92), 110);
    expect(forecast).toMatchObject({ kind: 'heading up', toGoal: { likely: null, latest: null } });
  });

  it('finds no trend in tempos that jump about or fall', () => {
    const jumping = [70, 90, 65, 88, 72, 91, 60].map(point);
    expect(forecastOf(jumping, 110)).toEqual({ kind: 'no trend', days: 7 });
    const falling = [95, 90, 86, 80, 77, 70].map(point);
    expect(forecastOf(falling, 110)).toEqual({ kind: 'no trend', days: 6 });
  });

  it('gives finite numbers for any tempos', () => {
    const tempo = fc.double({ min: 20, max: 300, noNaN: true });
    fc.assert(
      fc.property(fc.array(tempo, { maxLength: 40 }), tempo, (tempos, goal) => {
        const forecast = forecastOf(tempos.map(point), goal);
        if (forecast.kind !== 'heading up') return;
        expect(forecast.band.length).toBeLessThanOrEqual(FORECAST_DAYS);
        for (const { tempo: at, low, high } of forecast.band) {
          expect([at, low, high].every(Number.isFinite)).toBe(true);
        }
      }),
    );
  });
});

describe('progressSentence', () => {
  const settled = { tempo: 80, low: 76, high: 84 };
  const facts = { goal: 100, settled, days: [{ day: 10, tempo: 80 }], steadyDays: 1 };

  it('says how many days are missing', () => {
    const days = [...facts.days, { day: 12, tempo: 80 }];
    expect(
      progressSentence({ ...facts, days, forecast: { kind: 'not enough yet', days: 2, needed: 5 } }),
    ).toBe(
      'The slowest link is clean at 80; the goal is 100. Not enough yet for a forecast: two days played so far; it needs five days on this tune.',
    );
  });

  it('says what four weeks brought and how far the goal is', () => {
    const days = [
      { day: 10, tempo: 62 },
      { day: 40, tempo: 80 },
    ];
    const toGoal = { likely: 9, soonest: 6, latest: 15 };
    expect(
      progressSentence({ ...facts, days, forecast: { kind: 'heading up', toGoal, plateau: 110, band: [] } }),
    ).toBe(
      'The slowest link is clean at 80, up 18 in four weeks; the goal is 100. At this rate the goal is about nine practice days away (six to 15).',
    );
  });

  it('says when nothing has been played and when the goal is reached', () => {
    const forecast = { kind: 'at goal' as const };
    expect(progressSentence({ ...facts, settled: null, forecast })).toBe('Nothing played yet.');
    expect(progressSentence({ ...facts, goal: 78, forecast })).toBe(
      'The slowest link is clean at 80, at or past the goal of 78.',
    );
  });
});
