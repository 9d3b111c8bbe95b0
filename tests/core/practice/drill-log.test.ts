import { describe, expect, it } from 'vitest';
import { climbAfter } from '../../../src/lib/core/practice/climb-course';
import type { ClimbStart } from '../../../src/lib/core/practice/climb';
import { entryFor, marksOf, playedPasses, type PlayedPass } from '../../../src/lib/core/practice/drill-log';
import type { Mark } from '../../../src/lib/core/practice/marking';
import type { LogEntry } from '../../../src/lib/core/practice/records';

const ENDED = { at: Date.UTC(2026, 10, 25, 18), offsetMin: 60 };
const LATER = { ...ENDED, at: ENDED.at + 2000 };
const pass: PlayedPass = {
  number: 1,
  tempo: 80,
  mark: null,
  fromMemory: true,
  ended: ENDED,
  passId: null,
};

describe('what is written for a mark', () => {
  it('writes a pass for the first word, at the moment it ended', () => {
    expect(entryFor(pass, 'clean', 'd', LATER, 'p1')).toEqual({
      ...ENDED,
      ...{
        kind: 'pass',
        id: 'p1',
        drillId: 'd',
        tempo: 80,
        outcome: 'clean',
        fromMemory: true,
        missAt: null,
      },
    });
  });

  it('writes a correction for every later word, and none for the word that stands', () => {
    const marked: PlayedPass = { ...pass, mark: 'clean', passId: 'p1' };
    expect(entryFor(marked, 'clean', 'd', LATER, 'c1')).toBeNull();
    expect(entryFor(marked, 'stumbled', 'd', LATER, 'c1')).toMatchObject({
      ...{ kind: 'correction', passId: 'p1', outcome: 'stumbled', at: LATER.at },
    });
    expect(entryFor(marked, null, 'd', LATER, 'c1')).toMatchObject({ outcome: 'unmarked' });
  });

  it('writes nothing for a pass that stays unmarked', () => {
    expect(entryFor(pass, null, 'd', LATER, 'p1')).toBeNull();
  });

  it('brings a drill back from its log as it was marked last', () => {
    let played = pass;
    const log: LogEntry[] = [];
    for (const [index, mark] of (['clean', 'stumbled', 'broke down'] as const).entries()) {
      const entry = entryFor(played, mark, 'd', { ...LATER, at: LATER.at + index }, `e${index}`);
      if (entry) log.push(entry);
      played = { ...played, mark, passId: played.passId ?? 'e0' };
    }
    expect(playedPasses(log, 'd')).toEqual([{ ...pass, mark: 'broke down', passId: 'e0' }]);
    expect(playedPasses(log, 'another')).toEqual([]);
  });

  it('marks one pass by its word and a handful by its count', () => {
    expect(marksOf(1, 'stumbled', null)).toEqual(['stumbled']);
    expect(marksOf(4, null, 2)).toEqual(['clean', 'clean', 'stumbled', 'stumbled']);
  });
});

describe('the climb as a fold over the marks', () => {
  const start: ClimbStart = {
    kind: 'steady',
    comfortable: 70,
    toward: 100,
    goal: 100,
    measures: 1,
    doubt: 0,
  };
  const passes = (...marks: Mark[]): { number: number; mark: Mark }[] =>
    marks.map((mark, index) => ({ number: index + 1, mark }));

  it('changes with a mark that is changed later', () => {
    const risen = climbAfter(start, passes('clean', 'clean'), []).state.tempo;
    expect(risen).toBeGreaterThan(70);
    expect(climbAfter(start, passes('clean', 'stumbled'), []).state.tempo).toBeLessThan(risen);
  });

  it('goes on from a tempo set by hand, where it was set', () => {
    const moves = [{ afterPass: 1, tempo: 90 }];
    expect(climbAfter(start, passes('clean'), moves)).toMatchObject({ state: { tempo: 90 }, why: '' });
    expect(climbAfter(start, passes('clean', 'stumbled'), moves).state.tempo).toBeLessThan(90);
  });

  it('says how the last marked pass moved it, through unmarked ones', () => {
    const { why } = climbAfter(start, passes('clean', null), []);
    expect(why).toMatch(/^clean: up \d+ %$/);
  });
});
