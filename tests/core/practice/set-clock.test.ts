import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/lib/core/plan/make-plan';
import type { Pass } from '../../../src/lib/core/practice/records';
import { countedPasses } from '../../../src/lib/core/practice/settled-log';
import { isStale, minutesSinceRest, minutesSpent } from '../../../src/lib/core/practice/sitting';
import { foldStandings } from '../../../src/lib/core/practice/standings';
import { HOUR_MS, MINUTE_MS, type Moment } from '../../../src/lib/core/time/moment';
import { momentAfter } from '../../../src/lib/core/time/running-moment';
import { drillOn, figure, FIRST_EVENING, passAt, sittingOf, testTune } from './book';

const tune = testTune('Larkspur');
const BEGAN = { at: FIRST_EVENING, offsetMin: 0 };
/** A pass after so many real seconds, before which the clock and the zone may have been set. */
interface Step {
  seconds: number;
  clockMs: number;
  offsetMin: number;
}

const someStep = (setbackMax: number): fc.Arbitrary<Step> =>
  fc.record({
    seconds: fc.integer({ min: 1, max: 240 }),
    clockMs: fc.oneof(
      { weight: 5, arbitrary: fc.constant(0) },
      { weight: 2, arbitrary: fc.integer({ min: -setbackMax, max: 4 * HOUR_MS }) },
    ),
    // UTC-12 to UTC+14: the two sides of the date line
    offsetMin: fc.constantFrom(0, 60, -720, 840, 780, -600),
  });

/** The passes of a sitting as the app writes them while its device's clock is set this way and that. */
function played(steps: readonly Step[]): Pass[] {
  let clock = FIRST_EVENING;
  let last: Moment | null = null;
  return steps.map(({ seconds, clockMs, offsetMin }, index) => {
    clock += seconds * 1000 + clockMs;
    last = momentAfter(last, { at: clock, offsetMin });
    return passAt(`pass-${String(index).padStart(4, '0')}`, 'drill', last, { tempo: 60 + index });
  });
}

describe('a sitting under a clock that is set', () => {
  it('back by up to three hours in all keeps its passes in the order of playing', () => {
    const steps = fc.array(someStep(10 * MINUTE_MS), { minLength: 1, maxLength: 15 });
    fc.assert(
      fc.property(steps, (setBack) => {
        const log = played(setBack);
        expect(countedPasses(log).map(({ id }) => id)).toEqual(log.map(({ id }) => id));
      }),
    );
  });

  it('anyhow has minutes, standings and a plan of whole figures', () => {
    const steps = fc.array(someStep(400 * 24 * HOUR_MS), { minLength: 1, maxLength: 15 });
    fc.assert(
      fc.property(steps, (anyhow) => {
        const log = played(anyhow);
        const now = log.at(-1) ?? BEGAN;
        const sealed = sittingOf('sitting', [drillOn('drill', figure(tune, 0), BEGAN)], log);
        const soFar = { sitting: sealed, drills: sealed.drills, log };
        // a clock that is set counts as a pause at most: five minutes for each pass
        expect(minutesSpent(soFar, now)).toBeGreaterThanOrEqual(0);
        expect(minutesSpent(soFar, now)).toBeLessThanOrEqual(5 * (log.length + 1));
        expect(minutesSinceRest(soFar, now)).toBeGreaterThanOrEqual(0);
        expect(typeof isStale(soFar, now, 4)).toBe('boolean');
        const standings = foldStandings({ tunes: [tune], sittings: [sealed], now });
        expect(standings.of(figure(tune, 0)).passes).toBe(log.length);
        const request = { now, minutes: 20, tuning: null, hands: 'fresh' as const };
        const plan = makePlan({ tunes: [tune], standings, request });
        expect(plan.items.length).toBeGreaterThan(0);
        for (const { minutes, startTempo, towardTempo } of plan.items) {
          for (const number of [minutes, startTempo, towardTempo])
            expect(Number.isFinite(number) && number > 0).toBe(true);
        }
      }),
      { numRuns: 40 },
    );
  });
});
