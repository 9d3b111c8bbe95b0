import { describe, expect, it } from 'vitest';
import { renderSegments, SoundRenderer } from '$lib/core/rhythm/sound-render';
import type { Segment } from '$lib/core/rhythm/segment';
import { clickTimes, type Run } from '$lib/core/rhythm/click-times';
import { exactToNumber } from '$lib/core/rhythm/exact';
import { steadyTempo, tempoSteps } from '$lib/core/rhythm/tempo-map';

const RATE = 48_000;

const renderClick = (segments: readonly Segment[], rate: number) =>
  renderSegments(segments, new SoundRenderer(rate), rate);

function onsets(samples: Float32Array): number[] {
  const found: number[] = [];
  let silent = Infinity;
  samples.forEach((sample, index) => {
    if (sample !== 0 && silent > RATE * 0.002) found.push(index);
    silent = sample === 0 ? silent + 1 : 0;
  });
  return found;
}

/** 32 measures of two beats: AABB, each part 8 measures (callers' literature, SCIENCE.md section 4). */
const form: Run = { meter: '2/2', pattern: 'beat', measures: Array.from({ length: 32 }, () => 2) };

describe('clicks against published figures', () => {
  /** Friberg & Sundberg 1995, JASA 98, 2524-2531: under 240 ms a change of about 6 ms is heard [looked up: abstract]. */
  it('at 120 beats per minute are 500 ms apart, far within the 6 ms that can be heard', () => {
    const samples = renderClick([{ ...form, id: 'form', kind: 'pass', tempo: 120 }], RATE);
    const found = onsets(samples);
    expect(found).toHaveLength(64);
    found.slice(1).forEach((onset, index) => {
      expect(((onset - found[index]!) / RATE) * 1000).toBe(500);
    });
  });

  /** Jennings, Zesty Contras p. 37: a "lovely average" of 32 s for 64 beats [looked up: callers' list quoting it]. */
  it('64 beats at 120 beats per minute last 32.000 s', () => {
    const samples = renderClick([{ ...form, id: 'form', kind: 'pass', tempo: 120 }], RATE);
    expect(samples.length / RATE).toBe(32);
  });

  /** SCIENCE.md section 3: beat, eighth and length of 64 beats [computed there]. */
  it.each([
    [60, 1000, 64],
    [80, 750, 48],
    [100, 600, 38.4],
    [120, 500, 32],
    [128, 468.75, 30],
  ])('at %i beats per minute a beat lasts %f ms and 64 beats %f s', (tempo, beatMs, lengthSec) => {
    const eighths = clickTimes({ ...form, meter: '2/4', pattern: 'eighths' }, steadyTempo(tempo));
    expect(exactToNumber(eighths[1]!.seconds) * 1000).toBeCloseTo(beatMs / 2, 9);
    expect(exactToNumber(eighths[2]!.seconds) * 1000).toBeCloseTo(beatMs, 9);
    expect(renderClick([{ ...form, id: 'form', kind: 'pass', tempo }], 8000).length / 8000).toBe(lengthSec);
  });
});

/** SCIENCE.md check 10 [arithmetic; the just noticeable difference of about 3 % is Drake & Botte 1993, looked up: abstract]. */
describe('the steps of a climb', () => {
  it.each([
    [3, 24],
    [4, 18],
    [5, 15],
    [10, 8],
  ])('by %i %% from 60 reach 120 in %i steps', (percent, steps) => {
    const tempos = tempoSteps(60, 120, percent);
    expect(tempos.length - 1).toBe(steps);
    expect([tempos[0], tempos.at(-1)]).toEqual([60, 120]);
    tempos.slice(1).forEach((tempo, index) => {
      expect(tempo).toBeGreaterThan(tempos[index]!);
      // both tempos are rounded to a tenth, which is at most 0.17 % of 60
      expect(tempo / tempos[index]! - 1).toBeLessThan(percent / 100 + 0.0018);
    });
  });

  it('go down the same way, and stand still between equal tempos', () => {
    const down = tempoSteps(120, 60, 3);
    expect(down).toEqual([...down].sort((a, b) => b - a));
    expect(down).toHaveLength(25);
    expect([down[0], down.at(-1)]).toEqual([120, 60]);
    expect(tempoSteps(90, 90, 5)).toEqual([90]);
  });

  it.each([
    [0, 100, 3],
    [60, 1000, 3],
    [60, NaN, 3],
    [60, 100, 0],
    [60, 100, NaN],
  ])('from %f to %f by %f %% are refused', (from, to, percent) => {
    expect(() => tempoSteps(from, to, percent)).toThrow(RangeError);
  });
});
