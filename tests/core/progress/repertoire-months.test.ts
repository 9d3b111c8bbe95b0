import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OUTCOMES, type SealedSitting } from '../../../src/lib/core/practice/records';
import { foldStandings } from '../../../src/lib/core/practice/standings';
import { monthEnds, repertoireMonths } from '../../../src/lib/core/progress/repertoire-months';
import { standOf } from '../../../src/lib/core/progress/repertoire';
import { tuneSummaries } from '../../../src/lib/core/progress/tune-summary';
import { DAY_MS } from '../../../src/lib/core/time/moment';
import { practiceDayDate } from '../../../src/lib/core/time/practice-day';
import type { Passage } from '../../../src/lib/core/tune/passage';
import type { Tune } from '../../../src/lib/core/tune/tune';
import { evening, figure, part, seam, sittingOn, testTune, whole } from '../practice/book';

const dayOf = (date: string) => Date.parse(date) / DAY_MS;

describe('monthEnds', () => {
  const dates = (today: string, count: number) => monthEnds(dayOf(today), count).map(practiceDayDate);

  it('ends months by the calendar, and the newest today', () => {
    expect(dates('2026-03-15', 4)).toEqual(['2025-12-31', '2026-01-31', '2026-02-28', '2026-03-15']);
    expect(dates('2028-03-31', 2)).toEqual(['2028-02-29', '2028-03-31']);
    expect(dates('2026-03-01', 1)).toEqual(['2026-03-01']);
  });
});

/** Days from 2 March 2026, the first evening of the made-up logs. */
const on = (date: string) => dayOf(date) - dayOf('2026-03-02');
const played = (tune: Tune, date: string, tempo: number) =>
  sittingOn(
    `${tune.title}${date}`,
    whole(tune),
    on(date),
    Array.from({ length: 10 }, () => ({ tempo })),
  );

describe('repertoireMonths', () => {
  const [alder, birch, cedar] = ['Alder', 'Birch', 'Cedar'].map((title) => testTune(title, 'A', [2]));
  if (!alder || !birch || !cedar) throw new Error('Three tunes were made');
  const sittings = [
    ...['2026-03-29', '2026-03-30', '2026-03-31', '2026-04-30'].map((date) => played(alder, date, 130)),
    ...['2026-04-30', '2026-06-30'].map((date) => played(birch, date, 50)),
    played(cedar, '2026-02-01', 130),
  ];
  const tunes = [alder, birch, { ...cedar, archived: true }];
  const months = (count: number, all: readonly SealedSitting[] = sittings) => {
    const now = evening(on('2026-07-02'), 3600);
    return repertoireMonths(tunes, foldStandings({ tunes, sittings: all, now }), count);
  };

  it('tells where tunes stood as months ended: no memory lasts longer than sixty days', () => {
    const told = months(12).map(({ day, ...counts }) => [practiceDayDate(day), counts]);
    expect(told).toHaveLength(5);
    expect(told.filter((_, at) => at !== 2)).toEqual([
      ['2026-03-31', { atGoal: 1, growing: 0, rusty: 0 }],
      ['2026-04-30', { atGoal: 1, growing: 1, rusty: 0 }],
      ['2026-06-30', { atGoal: 0, growing: 1, rusty: 1 }],
      ['2026-07-02', { atGoal: 0, growing: 1, rusty: 1 }],
    ]);
  });

  it('gives the newest months that are asked for, and none of a book in which nothing was played', () => {
    expect(months(2)).toEqual(months(12).slice(-2));
    expect(months(12, [])).toEqual([]);
  });
});

/** Two layers: the second changes the first measure. */
function layered(title: string): Tune {
  const tune = testTune(title, 'AB', [2, 2]);
  const [measure] = tune.parts[0]?.measures ?? [];
  const [plain] = tune.figures;
  if (!measure || !plain) throw new Error('The tune has measures');
  return {
    ...tune,
    figures: [...tune.figures, { ...plain, id: `${title}-new` }],
    layers: [
      ...tune.layers,
      { id: `${title}-second`, name: 'second', changes: { [measure.id]: `${title}-new` } },
    ],
  };
}

const TUNES = [layered('Larkspur'), layered('Millrace')];
const PASSAGES: Passage[] = TUNES.flatMap((tune) => [
  ...[figure(tune, 0), figure(tune, 1), figure(tune, 3), seam(tune, 0), seam(tune, 1), part(tune, 'A')],
  ...[whole(tune), { ...whole(tune), layerId: `${tune.title}-second` } as Passage],
  { kind: 'figure', tuneId: tune.id, figureId: `${tune.title}-new` },
]);
const anyDrill = fc.record({
  passage: fc.constantFrom(...PASSAGES),
  day: fc.integer({ min: 0, max: 100 }),
  passes: fc.array(
    fc.record({
      tempo: fc.integer({ min: 40, max: 180 }),
      outcome: fc.oneof(
        { weight: 5, arbitrary: fc.constant('clean' as const) },
        fc.constantFrom(...OUTCOMES),
      ),
      fromMemory: fc.boolean(),
    }),
    { minLength: 1, maxLength: 12 },
  ),
});
const anyLog = fc
  .array(anyDrill, { maxLength: 25 })
  .map((drills) =>
    drills.map(({ passage, day, passes }, at) =>
      sittingOn(String(at).padStart(3, '0'), passage, day, passes),
    ),
  );

/** The repertoire counted tune by tune, as the list of tunes tells it on a day. */
function listedOn(sittings: readonly SealedSitting[], day: number) {
  const standings = foldStandings({ tunes: TUNES, sittings, now: evening(day, 3600) });
  const stands = tuneSummaries(TUNES, standings).map(standOf);
  const count = (wanted: string) => stands.filter((stand) => stand === wanted).length;
  return { atGoal: count('at goal'), growing: count('growing'), rusty: count('rusty') };
}

describe('any log', () => {
  const monthsOn = (sittings: readonly SealedSitting[], day: number) =>
    repertoireMonths(TUNES, foldStandings({ tunes: TUNES, sittings, now: evening(day, 3600) }), 12);

  it('has its newest month agree with the list of tunes today', () => {
    fc.assert(
      fc.property(anyLog, fc.integer({ min: 100, max: 190 }), (sittings, day) => {
        const newest = monthsOn(sittings, day).at(-1) ?? { atGoal: 0, growing: 0, rusty: 0 };
        expect(newest).toMatchObject(listedOn(sittings, day));
      }),
      { numRuns: 60 },
    );
  });

  it('tells months of rest as the list of tunes did when they ended', () => {
    fc.assert(
      fc.property(anyLog, (sittings) => {
        const rest = monthsOn(sittings, on('2026-12-05')).filter(({ day }) => day > dayOf('2026-06-10'));
        for (const { day, ...month } of rest.slice(0, 3)) {
          expect(month).toEqual(listedOn(sittings, day - dayOf('2026-03-02')));
        }
      }),
      { numRuns: 30 },
    );
  });

  it('never tells of more tunes than there are', () => {
    fc.assert(
      fc.property(anyLog, (sittings) => {
        for (const { atGoal, growing, rusty } of monthsOn(sittings, 150)) {
          expect(atGoal + growing + rusty).toBeLessThanOrEqual(TUNES.length);
        }
      }),
      { numRuns: 30 },
    );
  });
});
