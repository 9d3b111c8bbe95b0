import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makePlan } from '$lib/core/plan/make-plan';
import type { Plan, PlanRequest } from '$lib/core/plan/plan';
import { HANDS } from '$lib/core/practice/records';
import { RUST } from '$lib/core/practice/standing';
import { foldStandings, Standings } from '$lib/core/practice/standings';
import { METERS, TEMPO_MAX, TEMPO_MIN } from '$lib/core/rhythm/meter';
import { DAY_MS } from '$lib/core/time/moment';
import { passageBeats } from '$lib/core/tune/places';
import type { Tune } from '$lib/core/tune/tune';
import { tuningName } from '$lib/core/tune/tuning';
import { DOUBLE_C, G_TUNING, NOW, passagesOf, TableOfStandings, tuneOf } from './made-tunes';

interface Scene {
  tunes: Tune[];
  standings: TableOfStandings;
}

const someTune = fc.record({
  form: fc.constantFrom('A', 'AB', 'AABB', 'AABBC', 'ABZ'),
  counts: fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 3, maxLength: 3 }),
  goalTempo: fc.oneof(fc.integer({ min: TEMPO_MIN, max: TEMPO_MAX }), fc.constantFrom(0, NaN, 1e9)),
  meter: fc.constantFrom(...METERS),
  tuning: fc.constantFrom(G_TUNING, DOUBLE_C),
  archived: fc.boolean(),
  /** One for each passage in turn: 0 is not played. */
  tempos: fc.array(fc.constantFrom(0, 25, 60, 77, 95, 118, 300), { minLength: 1, maxLength: 9 }),
  rust: fc.constantFrom(...RUST),
  settled: fc.array(fc.boolean(), { minLength: 1, maxLength: 5 }),
  days: fc.integer({ min: -3, max: 900 }),
});

const scene: fc.Arbitrary<Scene> = fc.array(someTune, { maxLength: 6 }).map((wishes) => {
  const standings = new TableOfStandings();
  const tunes = wishes.map((wish, index) => {
    const tune = { ...tuneOf({ ...wish, title: `Tune number${index}` }), archived: wish.archived };
    const { figures, seams, parts, whole } = passagesOf(tune);
    for (const [at, passage] of [...figures, ...seams, ...parts, whole].entries()) {
      const tempo = wish.tempos[at % wish.tempos.length]!;
      if (tempo === 0) continue;
      const isSettled = wish.settled[at % wish.settled.length]!;
      standings.set(passage, tempo, {
        isSettled,
        rust: wish.rust,
        recall: 0.8,
        daysAgo: wish.days + (at % 7),
      });
    }
    return tune;
  });
  return { tunes, standings };
});

const request: fc.Arbitrary<PlanRequest> = fc.record({
  now: fc.constant(NOW),
  minutes: fc.double({ min: 5, max: 120, noNaN: true }),
  tuning: fc.constantFrom(null, G_TUNING, DOUBLE_C),
  hands: fc.constantFrom(...HANDS),
});

function expectPlayable({ items }: Plan, { tunes }: Scene): void {
  for (const item of items) {
    const tune = tunes.find(({ id }) => id === item.tuneId)!;
    expect(tune.archived).toBe(false);
    const passMinutes = passageBeats(tune, item.passage) / item.startTempo;
    expect(passMinutes).toBeGreaterThan(0);
    expect(passMinutes).toBeLessThanOrEqual(item.minutes);
    expect(item.measures.length).toBeGreaterThan(0);
    for (const tempo of [item.startTempo, item.towardTempo]) {
      expect(Number.isInteger(tempo) && tempo >= TEMPO_MIN && tempo <= TEMPO_MAX).toBe(true);
    }
    expect(item.startTempo).toBeLessThanOrEqual(item.towardTempo);
    if (tune.goalTempo >= TEMPO_MIN && tune.goalTempo <= TEMPO_MAX) {
      expect(item.towardTempo).toBeLessThanOrEqual(tune.goalTempo);
    }
    expect(Number.isInteger(item.minutes) && item.minutes >= 2 && item.minutes <= 10).toBe(true);
    expect(item.reason).toMatch(/^[A-Z].*[.]$/);
    expect(item.reason).not.toMatch(/NaN|Infinity|undefined|null| 0\b/);
  }
}

function minutesOf({ items, breaks }: Plan, inHand: string | null): number {
  const tunings = [...(inHand ? [inHand] : []), ...items.map(({ tuning }) => tuning)];
  const retunes = tunings.filter((tuning, index) => index > 0 && tuning !== tunings[index - 1]).length;
  const rests = breaks.reduce((sum, { minutes }) => sum + minutes, 0);
  return items.reduce((sum, { minutes }) => sum + minutes, 0) + 2 * retunes + rests;
}

describe('whatever the book', () => {
  it('a plan fits its minutes, every item can be played, and every other tune has its reason', () => {
    fc.assert(
      fc.property(scene, request, (book, asked) => {
        const plan = makePlan({ ...book, request: asked });
        expectPlayable(plan, book);
        expect(plan.minutes).toBeLessThanOrEqual(asked.minutes);
        expect(plan.minutes).toBe(minutesOf(plan, asked.tuning && tuningName(asked.tuning)));
        expect(new Set(plan.items.map(({ key }) => key)).size).toBe(plan.items.length);
        const named = new Set([...plan.items, ...plan.leftOut].map(({ tuneId }) => tuneId));
        const active = book.tunes.filter(({ archived }) => !archived).map(({ id }) => id);
        expect([...named].sort()).toEqual(active.sort());
        for (const { why } of plan.leftOut) expect(why).not.toMatch(/NaN|Infinity|undefined|null/);
      }),
      { numRuns: 300 },
    );
  });

  it('the same book and request give the same plan', () => {
    fc.assert(
      fc.property(scene, request, (book, asked) => {
        const again = structuredClone(book.tunes);
        const plan = makePlan({ ...book, request: asked });
        expect(makePlan({ tunes: again, standings: book.standings, request: asked })).toEqual(plan);
      }),
      { numRuns: 60 },
    );
  });

  it('never stretches past 30 minutes without a rest', () => {
    fc.assert(
      fc.property(scene, fc.integer({ min: 31, max: 120 }), (book, minutes) => {
        const plan = makePlan({ ...book, request: { now: NOW, minutes, tuning: null, hands: 'fresh' } });
        const rests = new Set(plan.breaks.map(({ afterItem }) => afterItem));
        let stretch = 0;
        for (const [index, item] of plan.items.entries()) {
          const retunes = index > 0 && item.tuning !== plan.items[index - 1]?.tuning;
          stretch += item.minutes + (retunes ? 2 : 0);
          expect(stretch).toBeLessThanOrEqual(30);
          if (rests.has(index)) stretch = 0;
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('nothing waits for ever', () => {
  it('every one of twelve rusty tunes in two tunings comes round within four months of ten minutes a day', () => {
    const tunes = Array.from({ length: 12 }, (_, index) =>
      tuneOf({ title: `Tune ${index}`, form: 'AB', tuning: index % 3 === 0 ? DOUBLE_C : G_TUNING }),
    );
    const lastPlayed = new Map(tunes.map(({ id }) => [id, -60]));
    const gaps = new Map(tunes.map(({ id }) => [id, 0]));
    for (let day = 0; day < 120; day++) {
      const standings = new TableOfStandings();
      for (const tune of tunes) {
        const days = day - lastPlayed.get(tune.id)!;
        gaps.set(tune.id, Math.max(gaps.get(tune.id)!, days));
        const { figures, seams, parts, whole } = passagesOf(tune);
        standings.setAll([...figures, ...seams, ...parts, whole], 104, {
          ...{
            daysAgo: days,
            rust: days > 5 ? 'likely faded' : 'fresh',
            recall: Math.max(0.3, 1 - days / 40),
          },
        });
      }
      const request = { now: NOW, minutes: 10, tuning: G_TUNING, hands: 'fresh' as const };
      for (const { tuneId } of makePlan({ tunes, standings, request }).items) lastPlayed.set(tuneId, day);
    }
    for (const { id } of tunes) expect(lastPlayed.get(id)).toBeGreaterThan(80);
    expect(Math.max(...gaps.values())).toBeLessThanOrEqual(100);
  });
});

describe('a large book', () => {
  it('plans 500 tunes with 20,000 passages in well under a second, however slow the machine', () => {
    const tunes = Array.from({ length: 500 }, (_, index) =>
      tuneOf({ title: `Tune ${index}`, form: 'AABB', counts: [10, 10] }),
    );
    const standings = new Standings(tunes, NOW);
    const request = { now: NOW, minutes: 20, tuning: null, hands: 'fresh' as const };
    makePlan({ tunes, standings, request });
    const times = Array.from({ length: 5 }, () => {
      const from = performance.now();
      makePlan({ tunes, standings, request });
      return performance.now() - from;
    });
    // the target is 50 ms (DESIGN.md section 7), measured by the bench; here a large factor is left for a busy machine
    expect(Math.min(...times)).toBeLessThan(1500);
  });

  it('plans an empty book, and one whose log lies in the future', () => {
    const standings = foldStandings({ tunes: [], sittings: [], now: NOW });
    const request = {
      now: { ...NOW, at: NOW.at - 400 * DAY_MS },
      minutes: 20,
      tuning: null,
      hands: 'fresh' as const,
    };
    expect(makePlan({ tunes: [], standings, request })).toMatchObject({ items: [], minutes: 0, leftOut: [] });
  });
});
