import { describe, expect, it } from 'vitest';
import { goingRusty, learned, playedLast } from '../../../src/lib/core/progress/learned';
import type { TuneSummary } from '../../../src/lib/core/progress/tune-summary';

function summary(title: string, changes: Partial<TuneSummary> = {}): TuneSummary {
  return {
    ...{ tuneId: title, title, tuning: 'gDGBD', form: 'AABB', goal: 100, layer: 'Plain', settled: null },
    ...{ rust: 'fresh', measures: 16, figures: 8, settledFigures: 0, settledShare: 0, lastPlayed: null },
    ...{ archived: false, origin: 'own', state: '' },
    ...changes,
  };
}
const at = (ms: number) => ({ lastPlayed: { at: ms, offsetMin: 0 } });

describe('learned', () => {
  it('is nothing until a measure is settled', () => {
    expect(learned([summary('Nine Mile Frost')])).toBeNull();
  });

  it('counts measures and names tunes at goal, leaving out those put away', () => {
    const whole = { settledFigures: 8, settledShare: 1, settled: { tempo: 104, low: 99, high: 109 } };
    const known = learned([
      summary('Salt Lick Sunday', whole),
      summary('Old Marl Pit', { settledFigures: 3, settledShare: 3 / 8 }),
      summary('Nine Mile Frost'),
      summary('Barley in the Wagon Rut', { ...whole, archived: true }),
    ]);
    expect(known).toEqual({
      sentence: 'Eleven of 24 measures are settled, in two of three tunes.',
      atGoal: ['Salt Lick Sunday'],
    });
  });
});

it('lists rusty tunes, the most faded and then the longest unplayed first', () => {
  const tunes = [
    summary('fresh'),
    summary('later', { rust: 'beginning to fade', ...at(9) }),
    summary('earlier', { rust: 'beginning to fade', ...at(5) }),
    summary('faded', { rust: 'likely faded', ...at(7) }),
    summary('put away', { rust: 'likely faded', archived: true }),
  ];
  expect(goingRusty(tunes).map(({ title }) => title)).toEqual(['faded', 'earlier', 'later']);
});

it('finds the tune played last', () => {
  expect(playedLast([])).toBeNull();
  expect(playedLast([summary('first'), summary('second')])?.title).toBe('first');
  const tunes = [
    summary('never'),
    summary('last', at(9)),
    summary('before', at(5)),
    summary('away', { ...at(99), archived: true }),
  ];
  expect(playedLast(tunes)?.title).toBe('last');
});
