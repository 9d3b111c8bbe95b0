import { describe, expect, it } from 'vitest';
import { pictureSentence } from '../../../src/lib/core/progress/picture-sentence';
import { tempoPicture } from '../../../src/lib/core/progress/tempo-picture';
import type { TuneProgress } from '../../../src/lib/core/progress/tune-progress';
import { practiceDayDate } from '../../../src/lib/core/time/practice-day';

const FIRST = 20_000;
const point = (day: number, tempo: number, half = 4) => ({
  ...{ day, date: practiceDayDate(day), tempo, low: tempo - half, high: tempo + half },
});

function progressOf(changes: Partial<TuneProgress> = {}): TuneProgress {
  const days = [60, 64, 70].map((tempo, at) => ({
    ...point(FIRST + 7 * at, tempo),
    key: 'k',
    name: 'Measure 1',
  }));
  return {
    ...{ tuneId: 't', title: 'Nine Mile Frost', goal: 100, settled: days[2] ?? null, days, slowest: [] },
    ...{ forecast: { kind: 'no trend', days: 3 }, forecastDates: [], weeks: [], sentence: '' },
    ...changes,
  };
}

const headingUp = (today: number): Partial<TuneProgress> => ({
  forecast: {
    ...{ kind: 'heading up', plateau: 120, toGoal: { likely: 3, soonest: 2, latest: null } },
    band: [1, 2, 3].map((ahead) => ({ ahead, tempo: 70 + ahead, low: 66, high: 400 })),
  },
  forecastDates: [today + 7, today + 14, today + 300].map(practiceDayDate),
});

describe('tempoPicture', () => {
  it('is nothing before the first practice day', () => {
    expect(tempoPicture(progressOf({ days: [], settled: null }), FIRST)).toBeNull();
  });

  it('spans four weeks at least, and reaches to today', () => {
    expect(tempoPicture(progressOf(), FIRST + 14)).toMatchObject({ from: FIRST, to: FIRST + 28 });
    expect(tempoPicture(progressOf(), FIRST + 100)).toMatchObject({ to: FIRST + 100, today: FIRST + 100 });
  });

  it('begins with the first day that is wanted, the newest one at the latest', () => {
    const link = (name: string) => ({
      ...{ key: name, name, tempo: 80, comfortable: 60, rust: 'fresh' as const },
      points: [0, 7, 14].map((at) => point(FIRST + at, 80)),
    });
    const progress = progressOf({ slowest: [link('slowest'), link('next')] as TuneProgress['slowest'] });
    const days = (since?: number) => tempoPicture(progress, FIRST + 20, since)?.tune.map(({ day }) => day);
    expect(days()).toEqual([FIRST, FIRST + 7, FIRST + 14]);
    expect(days(FIRST + 1)).toEqual([FIRST + 7, FIRST + 14]);
    expect(days(FIRST + 7)).toEqual([FIRST + 7, FIRST + 14]);
    expect(days(FIRST + 500)).toEqual([FIRST + 14]);
    const picture = tempoPicture(progress, FIRST + 20, FIRST + 7);
    expect(picture?.from).toBe(FIRST + 7);
    expect(picture?.links[0]?.points.map(({ day }) => day)).toEqual([FIRST + 7, FIRST + 14]);
  });

  it('holds goal and every tempo, but cuts off an interval that would flatten the history', () => {
    const days = [60, 64, 70].map((tempo, at) => ({ ...point(FIRST + at, tempo, 300), key: 'k', name: 'M' }));
    const picture = tempoPicture(progressOf({ days }), FIRST + 3);
    expect(picture?.bottom).toBe(0);
    expect(picture?.top).toBeGreaterThan(105);
    expect(picture?.top).toBeLessThan(130);
  });

  it('draws a forecast from the newest point on and leaves out what lies too far ahead', () => {
    const today = FIRST + 14;
    const picture = tempoPicture(progressOf(headingUp(today)), today);
    expect(picture?.forecast.map(({ day }) => day - today)).toEqual([0, 7, 14]);
    expect(picture?.to).toBe(FIRST + 28);
  });

  it('moves a forecast whose dates have passed, and begins it at what is settled today', () => {
    const today = FIRST + 14 + 60;
    const settled = { tempo: 55, low: 50, high: 61 };
    const picture = tempoPicture(progressOf({ ...headingUp(FIRST + 14), settled }), today);
    expect(picture?.forecast[0]).toEqual({ day: today, ...settled });
    expect(picture?.forecast.map(({ day }) => day - today)).toEqual([0, 1, 8]);
  });

  it('takes the next slowest links from the first day of the tune on', () => {
    const series = (name: string, day: number) => ({ key: name, name, points: [point(day, 80)] });
    const slowest = [series('slowest', FIRST), series('older', FIRST - 1), series('next', FIRST + 1)];
    expect(tempoPicture(progressOf({ slowest }), FIRST + 14)?.links.map(({ name }) => name)).toEqual([
      'next',
    ]);
  });
});

describe('pictureSentence', () => {
  it('says course, goal and forecast', () => {
    const today = FIRST + 14;
    const picture = tempoPicture(progressOf(headingUp(today)), today);
    // days since 1970 in GNU date: 20000 = 2024-10-04
    expect(picture && pictureSentence(picture)).toBe(
      'Settled tempo, from 60 on 4 October 2024 to 70 on 18 October 2024; goal 100. ' +
        'The forecast reaches between 66 and 400 by 1 November 2024.',
    );
  });

  it('says a single day as one', () => {
    const days = progressOf().days.slice(0, 1);
    const picture = tempoPicture(progressOf({ days }), FIRST);
    expect(picture && pictureSentence(picture)).toBe('Settled tempo, 60 on 4 October 2024; goal 100.');
  });
});
