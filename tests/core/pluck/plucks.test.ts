import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plucksOf, SOUNDED, type PluckOptions } from '$lib/core/pluck/plucks';
import type { PluckCue } from '$lib/core/rhythm/pluck-cue';
import { rational } from '$lib/core/rhythm/rational';
import { checkSegment } from '$lib/core/rhythm/segment';
import { compareStrikes, TECHNIQUES, type Strike, type Technique } from '$lib/core/tune/strike';
import type { StringNumber } from '$lib/core/tune/tuning';

const SETUP = { tuning: [67, 50, 55, 59, 62], capo: 2, spike: 2 } as const;
const OPTIONS: PluckOptions = { setup: SETUP, meter: '2/4', tempo: 100, sounded: 'both' };

const strike = (
  sixteenth: number,
  string: StringNumber,
  fret: number,
  technique: Technique = 'strike',
): Strike => ({ onset: rational(sixteenth, 16), duration: [1, 16], string, fret, technique });

const cuesOf = (strikes: readonly Strike[], options: Partial<PluckOptions> = {}): PluckCue[] =>
  plucksOf([{ strikes, from: [0, 1], to: [2, 1] }], { ...OPTIONS, ...options });

describe('a strike', () => {
  it('is the nail, a drone and a drop-thumb the thumb, softer', () => {
    const cues = cuesOf([strike(0, 1, 0), strike(2, 2, 1, 'drop-thumb'), strike(3, 5, 0, 'drone')]);
    expect(cues.map(({ touch, pitch }) => [touch, pitch])).toEqual([
      ['nail', 64],
      ['thumb', 62],
      ['thumb', 69],
    ]);
    const [melody, drop, drone] = cues.map(({ strength }) => strength!);
    expect(melody).toBeGreaterThan(drop!);
    expect(drop).toBeGreaterThan(drone!);
  });

  it('of the short string counts as drone when open, as melody when stopped', () => {
    const strikes = [strike(0, 5, 0), strike(4, 5, 5), strike(6, 5, 5, 'drone')];
    const beats = (sounded: PluckOptions['sounded']) =>
      cuesOf(strikes, { sounded }).map(({ at }) => at[0] / at[1]);
    expect(beats('both')).toEqual([0, 1, 1.5]);
    expect(beats('melody')).toEqual([1]);
    expect(beats('drone')).toEqual([0, 1.5]);
  });
});

describe('a brush', () => {
  it('takes the next two long strings open, and never the short one', () => {
    expect(cuesOf([strike(0, 3, 2, 'brush')]).map(({ string, pitch }) => [string, pitch])).toEqual([
      [4, 52],
      [3, 59],
    ]);
  });

  it('leaves a string alone that another strike takes at the same time', () => {
    const cues = cuesOf([strike(0, 1, 0, 'brush'), strike(0, 2, 3)]);
    expect(cues.map(({ string }) => string).sort()).toEqual([1, 2, 3]);
    expect(cues.find(({ string }) => string === 2)?.pitch).toBe(64);
  });

  it('stays inside its measure at the very end', () => {
    const cues = cuesOf([{ ...strike(0, 1, 0, 'brush'), onset: [499, 1000] }], { tempo: 240 });
    expect(cues).toHaveLength(3);
    for (const { at } of cues) expect(at[0] / at[1]).toBeLessThan(2);
  });
});

describe('a slide', () => {
  it('carries on the note before it, and takes at most half of the time since', () => {
    const cues = cuesOf([strike(0, 1, 2), strike(1, 1, 4, 'slide')], { tempo: 240 });
    // a sixteenth at 240 is 62.5 ms
    expect(cues[1]).toMatchObject({ touch: 'stay', pitch: 68 });
    expect(cues[1]?.glideSec).toBeCloseTo(0.0313, 3);
    expect(cues[1]!.at[0] / cues[1]!.at[1]).toBeCloseTo(0.25 - 0.0313 * 4, 2);
  });

  it.each([
    ['nothing rings', [strike(4, 1, 4, 'slide')], 66],
    ['another string rings', [strike(0, 2, 2), strike(4, 1, 4, 'slide')], 66],
    ['the note before it has the same fret', [strike(0, 1, 4), strike(4, 1, 4, 'slide')], 66],
    ['it ends on an open string', [strike(4, 1, 0, 'slide')], 66],
  ])('is struck two frets off where %s', (_, strikes, fromPitch) => {
    expect(cuesOf(strikes).at(-1)).toMatchObject({ touch: 'nail', fromPitch, at: [1, 1] });
  });

  it('is struck where the note before it has faded', () => {
    const late = cuesOf([strike(0, 1, 2), strike(7, 1, 4, 'slide')], { tempo: 30 });
    expect(late[1]).toMatchObject({ touch: 'nail', fromPitch: 66 });
  });
});

it('a tie is not sounded, a ghost is hinted at, an accent stands out', () => {
  expect(cuesOf([strike(0, 1, 2), strike(1, 1, 2, 'tie')])).toHaveLength(1);
  const strengths = (['ghost', undefined, 'accent'] as const).map(
    (weight) => cuesOf([{ ...strike(0, 1, 2), ...(weight && { weight }) }])[0]!.strength,
  );
  expect(strengths).toEqual(strengths.toSorted((a, b) => a! - b!));
  expect(new Set(strengths).size).toBe(3);
});

const anyStrike: fc.Arbitrary<Strike> = fc.record({
  onset: fc.integer({ min: 0, max: 95 }).map((place) => rational(place, 192)),
  duration: fc.constant(rational(1, 16)),
  string: fc.constantFrom<StringNumber>(1, 2, 3, 4, 5),
  fret: fc.integer({ min: 0, max: 22 }),
  technique: fc.constantFrom(...TECHNIQUES),
});

it('any strikes at any tempo give cues in order inside the measure, and melody and drone make up both', () => {
  fc.assert(
    fc.property(
      fc.array(anyStrike, { maxLength: 24 }),
      fc.integer({ min: 300, max: 2400 }).map((tenths) => tenths / 10),
      (strikes, tempo) => {
        const sorted = strikes.toSorted(compareStrikes);
        const counts = SOUNDED.map((sounded) => {
          const plucks = cuesOf(sorted, { tempo, sounded });
          const common = { id: 'pass', kind: 'pass', meter: '2/4', pattern: 'silent' } as const;
          checkSegment({ ...common, tempo, measures: [2], plucks });
          return plucks.length;
        });
        expect(counts[0]).toBe(counts[1]! + counts[2]!);
        const sounded = strikes.filter(({ technique }) => technique !== 'tie');
        expect(counts[0]).toBeGreaterThanOrEqual(sounded.length);
      },
    ),
  );
});
