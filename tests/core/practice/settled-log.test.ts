import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countedPasses } from '../../../src/lib/core/practice/settled-log';
import type { LogEntry } from '../../../src/lib/core/practice/records';
import { correctionOf, evening, passAt } from './book';

const first = passAt('a', 'd', evening(0, 1), { outcome: 'stumbled', missAt: 2 });
const second = passAt('b', 'd', evening(0, 2));

describe('the passes that count', () => {
  it('come in order of time, then id, each once', () => {
    const twin = passAt('aa', 'd', evening(0, 1));
    expect(countedPasses([second, twin, first, second]).map(({ id }) => id)).toEqual(['a', 'aa', 'b']);
  });

  it('carry the latest correction; a miss made clean has no place any more', () => {
    const early = correctionOf('x', first, 'broke down', 1);
    const late = correctionOf('w', first, 'clean', 2);
    expect(countedPasses([late, first, early])).toEqual([{ ...first, outcome: 'clean', missAt: null }]);
  });

  it('of two corrections at one instant, take the later id', () => {
    const log = [first, correctionOf('y', first, 'unmarked'), correctionOf('x', first, 'clean')];
    expect(countedPasses(log)).toEqual([]);
  });

  it('take an unmarked pass back in when it is marked later', () => {
    const log = [first, correctionOf('x', first, 'unmarked', 1), correctionOf('y', first, 'stumbled', 2)];
    expect(countedPasses(log)).toEqual([first]);
  });

  it('survive instants that are no number', () => {
    const lost = { ...first, at: NaN };
    expect(countedPasses([second, lost]).map(({ id }) => id)).toEqual(['a', 'b']);
  });

  it('are the same in any order of arrival, doubled records and damaged twins included', () => {
    const entry = fc.record({
      id: fc.integer({ min: 0, max: 6 }),
      second: fc.integer({ min: 0, max: 3 }),
      kind: fc.nat(4),
    });
    const log = fc.array(entry, { maxLength: 20 }).map((entries) =>
      entries.map(({ id, second: at, kind }): LogEntry => {
        const pass = passAt(`p${id}`, 'd', evening(0, at), { tempo: 60 + kind });
        return kind < 3 ? pass : correctionOf(`c${at}`, pass, kind === 3 ? 'unmarked' : 'stumbled', at);
      }),
    );
    const shuffled = log.chain((entries) =>
      fc.tuple(
        fc.constant(entries),
        fc.shuffledSubarray([...entries, ...entries], { minLength: 2 * entries.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([entries, again]) => {
        expect(countedPasses(again)).toEqual(countedPasses(entries));
      }),
    );
  });
});
