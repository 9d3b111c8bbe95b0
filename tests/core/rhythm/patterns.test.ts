import { describe, expect, it } from 'vitest';
import { METERS, meterShape } from '$lib/core/rhythm/meter';
import { exactSwing, PATTERNS, strokesOfMeasure } from '$lib/core/rhythm/patterns';
import { rational, toNumber, type Rational } from '$lib/core/rhythm/rational';

const written = (...args: Parameters<typeof strokesOfMeasure>) =>
  strokesOfMeasure(...args)
    .map(
      ({ at, accent }) =>
        `${at[1] === 1 ? at[0] : at.join('/')}${{ part: '!!', first: '!', beat: '', light: '.' }[accent]}`,
    )
    .join(' ');

describe('the strokes of a measure', () => {
  it.each([
    ['beat', '2/2', '0! 1'],
    ['beat', '4/4', '0! 1 2 3'],
    ['beat', '3/4', '0! 1 2'],
    ['beat', '9/8', '0! 1 2'],
    ['down-stroke', '2/4', '0! 1/2. 3/4. 1 3/2. 7/4.'],
    ['down-stroke', '2/2', '0! 1/2. 3/4. 1 3/2. 7/4.'],
    ['down-stroke', '4/4', '0! 1. 3/2. 2 3. 7/2.'],
    ['down-stroke', '3/4', '0! 1. 3/2. 2. 5/2.'],
    ['down-stroke', '6/8', '0! 2/3. 5/6. 1 5/3. 11/6.'],
    ['eighths', '2/4', '0! 1/2. 1 3/2.'],
    ['eighths', '2/2', '0! 1/4. 1/2. 3/4. 1 5/4. 3/2. 7/4.'],
    ['eighths', '6/8', '0! 1/3. 2/3. 1 4/3. 5/3.'],
    ['off-beats', '2/4', '1/2 3/2'],
    ['off-beats', '6/8', '2/3 5/3'],
    ['drone', '2/4', '3/4 7/4'],
    ['drone', '2/2', '3/4 7/4'],
    ['drone', '4/4', '3/2 7/2'],
    ['drone', '3/4', '3/2 5/2'],
    ['drone', '9/8', '5/6 11/6 17/6'],
    ['silent', '4/4', ''],
  ] as const)('%s in %s', (pattern, meter, strokes) => {
    expect(written(pattern, meter, [meterShape(meter).beats, 1])).toBe(strokes);
  });

  it.each([
    ['eighths', '4/4', 2, '0! 2/3. 1 5/3. 2 8/3. 3 11/3.'],
    ['eighths', '2/4', 1.5, '0! 3/5. 1 8/5.'],
    ['eighths', '2/2', 2, '0! 1/3. 1/2. 5/6. 1 4/3. 3/2. 11/6.'],
    ['down-stroke', '2/4', 2, '0! 1/2. 5/6. 1 3/2. 11/6.'],
    ['down-stroke', '4/4', 2, '0! 1. 5/3. 2 3. 11/3.'],
    ['off-beats', '2/4', 2, '2/3 5/3'],
    ['off-beats', '2/2', 2, '1/2 3/2'],
    ['drone', '2/4', 1.25, '7/9 16/9'],
    ['beat', '2/4', 2, '0! 1'],
    ['eighths', '6/8', 2, '0! 1/3. 2/3. 1 4/3. 5/3.'],
    ['down-stroke', '6/8', 2, '0! 2/3. 5/6. 1 5/3. 11/6.'],
  ] as const)('%s in %s swung %f to 1', (pattern, meter, swing, strokes) => {
    expect(written(pattern, meter, [meterShape(meter).beats, 1], { swing })).toBe(strokes);
  });

  it('swing only between straight and 2 to 1', () => {
    for (const swing of [0, 0.99, 2.01, NaN]) expect(() => exactSwing(swing)).toThrow(`saw ${swing}`);
  });

  it('mark the first of a part, and say which beat each one is', () => {
    expect(written('beat', '3/4', [3, 1], { part: true })).toBe('0!! 1 2');
    expect(written('beat', '3/4', [1, 1], { part: true, pickup: true })).toBe('0');
    const counts = (pickup: boolean) =>
      strokesOfMeasure('eighths', '4/4', [pickup ? 2 : 4, 1], { pickup }).map(({ count }) => count);
    expect(counts(false)).toEqual([1, null, 2, null, 3, null, 4, null]);
    expect(counts(true)).toEqual([3, null, 4, null]);
  });

  it('of a crooked measure are cut at its end', () => {
    expect(written('beat', '4/4', [5, 2])).toBe('0! 1 2');
    expect(written('down-stroke', '4/4', [5, 1])).toBe('0! 1. 3/2. 2 3. 7/2. 4');
    expect(written('down-stroke', '2/4', [3, 2])).toBe('0! 1/2. 3/4. 1');
  });

  it('of a pickup count towards the bar line and have no first beat', () => {
    expect(written('beat', '4/4', [1, 1], { pickup: true })).toBe('0');
    expect(written('beat', '2/2', [1, 2], { pickup: true })).toBe('');
    expect(written('down-stroke', '4/4', [1, 1], { pickup: true })).toBe('0. 1/2.');
    expect(written('beat', '2/4', [2, 1], { pickup: true })).toBe('0 1');
  });

  it('lie in order inside the measure, whatever its length', () => {
    for (const meter of METERS)
      for (const pattern of PATTERNS)
        for (let halves = 1; halves <= 20; halves++) {
          const beats: Rational = rational(halves, 2);
          const places = strokesOfMeasure(pattern, meter, beats).map(({ at }) => toNumber(at));
          expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
          expect(places.every((place) => place >= 0 && place < halves / 2)).toBe(true);
          for (const swing of [1.37, 2]) {
            const swung = strokesOfMeasure(pattern, meter, beats, { swing }).map(({ at }) => toNumber(at));
            expect(swung).toHaveLength(places.length);
            expect(swung).toEqual([...swung].sort((a, b) => a - b));
            swung.forEach((place, index) => {
              expect(place).toBeGreaterThanOrEqual(places[index]!);
              expect(place).toBeLessThan(halves / 2);
            });
          }
        }
  });
});
