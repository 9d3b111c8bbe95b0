import { describe, expect, it } from 'vitest';
import { movableWithin, placeAt } from '$lib/ui/today/drag';

const rows = [0, 100, 200, 300].map((top) => ({ top, bottom: top + 100 }));

describe('a line that is dragged', () => {
  it('takes a neighbour’s place once its middle is past that neighbour’s', () => {
    expect(placeAt(rows, 0, 50, [0, 3])).toBe(0);
    expect(placeAt(rows, 0, 149, [0, 3])).toBe(0);
    expect(placeAt(rows, 0, 151, [0, 3])).toBe(1);
    expect(placeAt(rows, 0, 9999, [0, 3])).toBe(3);
    expect(placeAt(rows, 2, 149, [0, 3])).toBe(1);
    expect(placeAt(rows, 2, -50, [0, 3])).toBe(0);
  });

  it('stays within the run of its own tuning', () => {
    const tunings = ['G', 'G', 'C', 'C'];
    expect(movableWithin(tunings, 1)).toEqual([0, 1]);
    expect(movableWithin(tunings, 2)).toEqual([2, 3]);
    expect(movableWithin(['G'], 0)).toEqual([0, 0]);
    expect(placeAt(rows, 1, 9999, [0, 1])).toBe(1);
    expect(placeAt(rows, 2, -9999, [2, 3])).toBe(2);
  });
});
