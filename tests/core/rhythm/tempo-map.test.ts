import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearestSample } from '$lib/core/rhythm/click-times';
import { exactToNumber } from '$lib/core/rhythm/exact';
import type { Rational } from '$lib/core/rhythm/rational';
import {
  beatAt,
  rampedTempo,
  secondsAround,
  secondsAt,
  tempoAt,
  tempoFrom,
  tempoMap,
  type TempoStretch,
} from '$lib/core/rhythm/tempo-map';

const tenths = fc.integer({ min: 200, max: 3000 });
const lengths = fc.integer({ min: 1, max: 400 });

/**
 * True when beat b of a ramp is past at t = halves / (2 rate) seconds. A ramp from v to w (tenths of beats a minute) over B
 * beats lasts T = 2B / (v + w) and has, after t of it, v t + (w - v) t^2 / 2T beats behind it. No root is taken.
 */
function comesBefore(
  v: bigint,
  w: bigint,
  length: bigint,
  beat: Rational,
  rate: bigint,
  halves: bigint,
): boolean {
  const [n, d] = [halves, 2n * rate];
  const left = v * n * 4n * length * 600n * d + (w - v) * (v + w) * n * n;
  const under = 4n * length * 600n * 600n * d * d;
  return left * BigInt(beat[1]) > BigInt(beat[0]) * under;
}

describe('a ramp', () => {
  it('rounds every beat to the sample that whole numbers alone decide', () => {
    const rates = fc.constantFrom(44_100, 48_000, 192_000);
    const parts = fc.integer({ min: 1, max: 11 });
    fc.assert(
      fc.property(
        tenths,
        tenths,
        lengths,
        parts,
        rates,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (...given) => {
          const [v, w, length, by, rate, share] = given;
          const beat: Rational = [Math.floor(share * length * by), by];
          const sample = nearestSample(rampedTempo(v / 10, w / 10, [length, 1]), beat, rate);
          const isBefore = (halves: number) =>
            comesBefore(BigInt(v), BigInt(w), BigInt(length), beat, BigInt(rate), BigInt(halves));
          expect(isBefore(2 * sample + 1)).toBe(true);
          if (sample > 0) expect(isBefore(2 * sample - 1)).toBe(false);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('lasts exactly as long as its mean tempo says, and then stays', () => {
    const map = rampedTempo(60, 120, [30, 1]);
    expect(secondsAt(map, [30, 1])).toEqual([20n, 1n]);
    expect(secondsAt(map, [32, 1])).toEqual([21n, 1n]);
    expect(tempoAt(map, [31, 1])).toBe(120);
  });

  it('changes evenly in time: half of its time is past when the tempo is the mean one', () => {
    const map = rampedTempo(60, 120, [30, 1]);
    // 10 s at a mean tempo of 75
    expect(exactToNumber(secondsAt(map, [25, 2]))).toBeCloseTo(10, 12);
    expect(tempoAt(map, [25, 2])).toBeCloseTo(90, 12);
    expect(beatAt(map, 10)).toBeCloseTo(12.5, 12);
  });

  it('gives bounds that hold the time and are as close as asked', () => {
    const [low, high] = secondsAround(rampedTempo(61, 97.3, [31, 1]), [7, 1], 200);
    const apart = high[0] * low[1] - low[0] * high[1];
    expect(apart > 0n).toBe(true);
    expect(apart << 200n <= low[1] * high[1]).toBe(true);
  });

  it('cut short by a change goes on from where it had come', () => {
    const map = tempoFrom(rampedTempo(60, 120, [30, 1]), [25, 2], 60);
    expect(exactToNumber(secondsAt(map, [29, 2]))).toBeCloseTo(12, 12);
    expect(tempoFrom(map, [0, 1], 80)).toEqual([{ kind: 'steady', fromBeat: [0, 1], tempo: 80 }]);
  });
});

describe('the beat at a time', () => {
  it('is the inverse of the time of a beat, for steps and ramps', () => {
    const map = tempoMap([
      { kind: 'steady', fromBeat: [0, 1], tempo: 88 },
      { kind: 'ramp', fromBeat: [4, 1], toBeat: [12, 1], tempo: 88, toTempo: 61.5 },
      { kind: 'ramp', fromBeat: [14, 1], toBeat: [20, 1], tempo: 70, toTempo: 140 },
      { kind: 'steady', fromBeat: [18, 1], tempo: 100 },
    ]);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 240 }), (tenth) => {
        expect(beatAt(map, exactToNumber(secondsAt(map, [tenth, 10])))).toBeCloseTo(tenth / 10, 9);
      }),
    );
  });
});

describe('a tempo map is refused', () => {
  const ramp: TempoStretch = { kind: 'ramp', fromBeat: [0, 1], toBeat: [4, 1], tempo: 60, toTempo: 90 };
  it.each<[string, TempoStretch[], string]>([
    ['with a ramp without a length', [{ ...ramp, toBeat: [0, 1] }], 'A ramp ends after it begins'],
    ['with a ramp to no tempo', [{ ...ramp, toTempo: NaN }], 'saw NaN'],
    ['with a ramp past the fastest', [{ ...ramp, toTempo: 1000 }], 'saw 1000'],
    ['that goes back', [ramp, { ...ramp, fromBeat: [0, 1] }], 'after the one before it'],
  ])('%s', (_, stretches, words) => {
    expect(() => tempoMap(stretches)).toThrow(words);
  });
});
