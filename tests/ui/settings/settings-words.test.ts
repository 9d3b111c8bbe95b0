import { describe, expect, test } from 'vitest';
import { sayAdded, sayCounts, sayHour } from '$lib/ui/settings/settings-words';

describe('counts', () => {
  test.each([
    [{ tunes: 3, sittings: 41, passes: 2310 }, '3 tunes, 41 sittings, 2,310 passes'],
    [{ tunes: 1, sittings: 1, passes: 1 }, '1 tune, 1 sitting, 1 pass'],
    [{ tunes: 0, sittings: 0, passes: 0 }, '0 tunes, 0 sittings, 0 passes'],
  ])('%o', (counts, said) => {
    expect(sayCounts(counts)).toBe(said);
  });

  test('a merge that brought passes into known sittings says so', () => {
    expect(sayAdded({ tunes: 0, sittings: 0, passes: 2 })).toBe(
      'New in this book: 0 tunes, 0 sittings, 2 passes.',
    );
  });

  test('a merge that brought nothing says so', () => {
    expect(sayAdded({ tunes: 0, sittings: 0, passes: 0 })).toMatch(/^No tune, sitting or pass/);
  });
});

test('an hour is written as on a clock', () => {
  expect([0, 4, 12].map(sayHour)).toEqual(['00:00', '04:00', '12:00']);
});
