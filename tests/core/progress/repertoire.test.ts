import { describe, expect, it } from 'vitest';
import {
  ANY_TUNE,
  byTuning,
  findTunes,
  standOf,
  TUNE_STANDS,
  type TuneStand,
} from '../../../src/lib/core/progress/repertoire';
import type { TuneSummary } from '../../../src/lib/core/progress/tune-summary';
import type { Tuning } from '../../../src/lib/core/tune/tuning';
import type { Tune } from '../../../src/lib/core/tune/tune';
import { SMALL_BOOK } from '../book/made-up-books';

const [made] = SMALL_BOOK.tunes;
if (!made) throw new Error('The small book has no tune');
const SAWMILL: Tuning = [67, 50, 55, 60, 62];
const OPEN_G: Tuning = [67, 50, 55, 59, 62];
const tune = (title: string, tuning: Tuning, key: string): Tune => ({
  ...made,
  id: title,
  title,
  tuning,
  key,
});
const tunes = [
  tune('Tin Lantern', OPEN_G, 'G'),
  tune('Cold Frosty Morning', SAWMILL, 'A minor'),
  tune('Café at the Mill', OPEN_G, 'G'),
  tune('Old Joe Clark', OPEN_G, 'A'),
];

const settled = { tempo: 100, low: 90, high: 110, learn: 0.1, evidence: 5 };
const summary = (change: Partial<TuneSummary>): TuneSummary => ({
  ...{ tuneId: 'x', title: '', tuning: '', form: 'AABB', goal: 100, layer: 'plain', settled },
  ...{ rust: 'fresh', measures: 8, figures: 6, settledFigures: 6, settledShare: 1, lastPlayed: null },
  ...{ archived: false, origin: 'own', state: '' },
  ...change,
});

describe('where a tune stands', () => {
  it('is at goal when all of it is settled there, and rusty as soon as it fades', () => {
    expect(standOf(summary({}))).toBe('at goal');
    expect(standOf(summary({ goal: 101 }))).toBe('growing');
    expect(standOf(summary({ settledShare: 0.9 }))).toBe('growing');
    expect(standOf(summary({ rust: 'beginning to fade' }))).toBe('rusty');
    expect(standOf(summary({ settled: null }))).toBe('not begun');
  });
});

describe('findTunes', () => {
  const titles = (wanted: Partial<typeof ANY_TUNE>, summaries = new Map<string, TuneSummary>()) =>
    findTunes(tunes, summaries, { ...ANY_TUNE, ...wanted }).map(({ title }) => title);

  it('gives all by title when nothing is asked for', () => {
    expect(titles({})).toEqual(['Café at the Mill', 'Cold Frosty Morning', 'Old Joe Clark', 'Tin Lantern']);
  });

  it('finds words in any order, in any letters', () => {
    expect(titles({ words: '  MILL cafe ' })).toEqual(['Café at the Mill']);
    expect(titles({ words: 'morning tin' })).toEqual([]);
  });

  it('narrows by tuning, by key and by where a tune stands, together', () => {
    expect(titles({ tuning: 'gDGCD' })).toEqual(['Cold Frosty Morning']);
    expect(titles({ tuning: 'gDGBD', key: 'G' })).toEqual(['Café at the Mill', 'Tin Lantern']);
    const summaries = new Map([
      ['Tin Lantern', summary({})],
      ['Old Joe Clark', summary({ settled: null })],
    ]);
    const standing = (stand: TuneStand) => titles({ stand }, summaries);
    expect(TUNE_STANDS.map(standing)).toEqual([['Tin Lantern'], [], [], ['Old Joe Clark']]);
  });
});

describe('byTuning', () => {
  it('puts tunes of a tuning together, that of most tunes first, and loses none', () => {
    const groups = byTuning(findTunes(tunes, new Map(), ANY_TUNE));
    expect(groups.map(({ heading, tunes: inIt }) => [heading, inIt.length])).toEqual([
      ['gDGBD', 3],
      ['gDGCD', 1],
    ]);
  });
});
