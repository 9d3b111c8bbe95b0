import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clickSamples, clickTimes, countInMeasures, runBeats, type Run } from '$lib/core/rhythm/click-times';
import { exactToNumber } from '$lib/core/rhythm/exact';
import { METERS, meterShape } from '$lib/core/rhythm/meter';
import { PATTERNS } from '$lib/core/rhythm/patterns';
import { checkSegment } from '$lib/core/rhythm/segment';
import { steadyTempo, tempoMap } from '$lib/core/rhythm/tempo-map';

const RATES = [22_050, 44_100, 48_000, 96_000, 192_000];
const tempos = fc.integer({ min: 200, max: 3000 }).map((tenths) => tenths / 10);

/** round(k * 60 * rate / tempo) in whole numbers only, halves upwards. */
function kthBeat(k: number, rate: number, tempo: number): number {
  const tenths = BigInt(Math.round(tempo * 10));
  return Number((2n * BigInt(k) * 600n * BigInt(rate) + tenths) / (2n * tenths));
}

describe('click times', () => {
  it('have no drift: click k of a run is round(k * 60 * rate / tempo), for every meter', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...METERS),
        tempos,
        fc.constantFrom(...RATES),
        fc.integer({ min: 1, max: 200 }),
        (meter, tempo, rate, count) => {
          const measures = Array.from({ length: count }, () => meterShape(meter).beats);
          const samples = clickSamples({ meter, pattern: 'beat', measures }, steadyTempo(tempo), rate);
          expect(samples).toHaveLength(count * meterShape(meter).beats);
          expect(samples.map(({ sample }) => sample)).toEqual(samples.map((_, k) => kthBeat(k, rate, tempo)));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('rise strictly, for crooked measures and every pattern', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...METERS),
        fc.constantFrom(...PATTERNS),
        fc.array(
          fc.integer({ min: 1, max: 12 }).map((halves) => halves / 2),
          { minLength: 1, maxLength: 12 },
        ),
        fc.boolean(),
        tempos,
        (meter, pattern, measures, pickup, tempo) => {
          const times = clickTimes({ meter, pattern, measures, pickup }, steadyTempo(tempo));
          const seconds = times.map((time) => exactToNumber(time.seconds));
          seconds.slice(1).forEach((later, index) => {
            expect(later).toBeGreaterThan(seconds[index]!);
          });
          const lengthSec = (measures.reduce((sum, beats) => sum + beats, 0) * 60) / tempo;
          if (seconds.length > 0) expect(seconds.at(-1)).toBeLessThan(lengthSec);
        },
      ),
    );
  });

  it('of a crooked run start each measure where the one before it ended', () => {
    const run: Run = { meter: '4/4', pattern: 'beat', measures: [4, 2, 2.5, 4] };
    const firsts = clickSamples(run, steadyTempo(60), 1000).filter(({ accent }) => accent === 'first');
    expect(firsts.map(({ sample }) => sample)).toEqual([0, 4000, 6000, 8500]);
    expect(runBeats(run)).toEqual([25, 2]);
  });

  it('leave out silent measures, and the cycle runs on from run to run', () => {
    const run: Run = { meter: '2/4', pattern: 'beat', measures: [2, 2, 2, 2, 2] };
    const at = (before?: number) =>
      clickSamples(
        { ...run, silentMeasures: { on: 2, off: 1, ...(before === undefined ? {} : { before }) } },
        steadyTempo(60),
        1,
      ).map(({ sample }) => sample);
    expect(at()).toEqual([0, 1, 2, 3, 6, 7, 8, 9]);
    expect(at(5)).toEqual([2, 3, 4, 5, 8, 9]);
  });

  it('mark where a part begins, in the measures that say so', () => {
    const run: Run = { meter: '2/4', pattern: 'beat', measures: [2, 2, 2], parts: [0, 2] };
    const accents = clickSamples(run, steadyTempo(60), 1).map(({ accent }) => accent);
    expect(accents).toEqual(['part', 'beat', 'first', 'beat', 'part', 'beat']);
    expect(clickSamples({ ...run, pickup: true }, steadyTempo(60), 1)[0]?.accent).toBe('beat');
  });

  it('follow a tempo map by its steps', () => {
    const map = tempoMap([
      { kind: 'steady', fromBeat: [0, 1], tempo: 60 },
      { kind: 'steady', fromBeat: [2, 1], tempo: 120 },
    ]);
    const times = clickTimes({ meter: '4/4', pattern: 'beat', measures: [4] }, map);
    expect(times.map(({ seconds }) => exactToNumber(seconds))).toEqual([0, 1, 2, 2.5]);
  });

  it('stay exact past the size of safe integers, as with sixty different tempos', () => {
    const steps = Array.from({ length: 60 }, (_, index) => ({
      kind: 'steady' as const,
      fromBeat: [index, 1] as const,
      tempo: 60 + index * 1.7,
    }));
    const run: Run = { meter: '2/2', pattern: 'beat', measures: Array.from({ length: 30 }, () => 2) };
    const last = clickTimes(run, tempoMap(steps)).at(-1);
    const expected = steps.slice(0, 59).reduce((sum, { tempo }) => sum + 60 / tempo, 0);
    expect(exactToNumber(last!.seconds)).toBeCloseTo(expected, 10);
    expect(last!.seconds[1] > BigInt(Number.MAX_SAFE_INTEGER)).toBe(true);
  });

  it('count in for whole measures, and until a passage falls in that begins inside one', () => {
    expect(countInMeasures('4/4', 1)).toEqual([4]);
    expect(countInMeasures('6/8', 2)).toEqual([2, 2]);
    expect(countInMeasures('2/4', 1, 1)).toEqual([2, 1]);
    expect(countInMeasures('2/2', 2, 1.5)).toEqual([2, 2, 1.5]);
  });
});

describe('what cannot be played is refused with the place, the rule and what was seen', () => {
  const good = {
    id: 'one',
    kind: 'pass',
    meter: '2/4',
    pattern: 'beat',
    tempo: 80,
    measures: [2],
  } as const;

  it.each([0, -60, 1000, NaN, Infinity, 19.9, 300.1])('tempo %s', (tempo) => {
    expect(() => {
      checkSegment({ ...good, tempo });
    }).toThrow(`Segment one: A tempo lies between 20 and 300 beats per minute: saw ${tempo}`);
  });

  it.each([0, -1, 1.25, NaN, 65])('a measure of %s beats', (beats) => {
    expect(() => {
      checkSegment({ ...good, measures: [2, beats] });
    }).toThrow(`in halves: saw ${beats}`);
  });

  it('an empty segment that does not wait, a waiting one with measures, a volume past 1', () => {
    const check = (change: object) => () => {
      checkSegment({ ...good, ...change });
    };
    expect(check({ measures: [] })).toThrow('saw 0 measures');
    expect(check({ waits: true })).toThrow('waits true');
    expect(check({ volume: 1.5 })).toThrow('saw 1.5');
    expect(check({})).not.toThrow();
    expect(check({ measures: [], waits: true })).not.toThrow();
  });

  it.each<[object, string]>([
    [{ toTempo: 0 }, 'saw 0'],
    [{ swing: NaN }, 'A swing lies between 1 and 2 to 1: saw NaN'],
    [{ silentMeasures: { on: 0, off: 1 } }, 'saw 0 and 1'],
    [{ silentMeasures: { on: 1, off: Infinity } }, 'saw 1 and Infinity'],
    [{ plucks: [{ at: [2, 1], string: 1, pitch: 62 }] }, 'saw one at beat 2/1'],
    [{ plucks: [{ at: [1, 1] }, { at: [1, 2] }] }, 'in order: saw one at beat 1/2'],
  ])('%o', (change, words) => {
    expect(() => {
      checkSegment({ ...good, ...change });
    }).toThrow(words);
  });

  it('a tempo map that does not begin at 0 or goes back', () => {
    expect(() => tempoMap([])).toThrow('begins at beat 0');
    expect(() => tempoMap([{ kind: 'steady', fromBeat: [1, 1], tempo: 60 }])).toThrow('begins at beat 0');
    expect(() =>
      tempoMap([
        { kind: 'steady', fromBeat: [0, 1], tempo: 60 },
        { kind: 'steady', fromBeat: [0, 1], tempo: 70 },
      ]),
    ).toThrow('after the one before it');
  });
});
