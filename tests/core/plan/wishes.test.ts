import { describe, expect, it } from 'vitest';
import { makePlan } from '$lib/core/plan/make-plan';
import type { Plan, PlanRequest } from '$lib/core/plan/plan';
import {
  askNew,
  drilledToday,
  exchange,
  keepIn,
  letGo,
  moveTo,
  noWishes,
  notToday,
  putBack,
  readWishes,
  withWishes,
} from '$lib/core/plan/wishes';
import type { Drill, LogEntry } from '$lib/core/practice/records';
import { HOUR_MS } from '$lib/core/time/moment';
import { practiceDay } from '$lib/core/time/practice-day';
import { passageKey } from '$lib/core/tune/passage';
import type { Tune } from '$lib/core/tune/tune';
import { NOW, passagesOf, TableOfStandings, tuneOf } from './made-tunes';

const DAY = practiceDay(NOW);
const none = noWishes(DAY);

function planFor(tunes: readonly Tune[], standings: TableOfStandings, change: Partial<PlanRequest>): Plan {
  const request = { now: NOW, minutes: 20, tuning: null, hands: 'fresh' as const, ...change };
  return makePlan({ tunes, standings, request });
}

const keys = ({ items }: Plan) => items.map(({ key }) => key);

describe('wishes', () => {
  it('hold the latest word on a passage', () => {
    const pinned = keepIn(notToday(none, 'a'), 'a', 5);
    expect(pinned).toEqual({ ...none, pinned: [{ key: 'a', at: 5 }] });
    expect(notToday(pinned, 'a')).toEqual({ ...none, skipped: ['a'] });
    expect(putBack(notToday(none, 'a'), 'a')).toEqual(none);
    expect(letGo(pinned, 'a')).toEqual(none);
    expect(notToday(notToday(none, 'a'), 'a').skipped).toEqual(['a']);
  });

  it('keep a passage in where it stands', () => {
    expect(keepIn(none, 'b', 5, ['a', 'b', 'c']).order).toEqual(['a', 'b', 'c']);
    expect(keepIn(none, 'z', 5, ['a', 'b', 'c']).order).toEqual([]);
  });

  it('put one passage in the place of another', () => {
    const wishes = exchange(none, ['a', 'b', 'c'], 'b', { instead: 'z', at: 7 });
    expect(wishes).toEqual({
      ...none,
      ...{ skipped: ['b'], pinned: [{ key: 'z', at: 7 }], order: ['a', 'z', 'c'] },
    });
  });

  it('move a passage, and stop at the ends', () => {
    const shown = ['a', 'b', 'c'];
    expect(moveTo(none, shown, 'c', 0).order).toEqual(['c', 'a', 'b']);
    expect(moveTo(none, shown, 'a', 9).order).toEqual(['b', 'c', 'a']);
    expect(moveTo(none, shown, 'b', -4).order).toEqual(['b', 'a', 'c']);
    expect(moveTo(none, shown, 'gone', 1)).toBe(none);
  });

  it('are read back as they were written, on their own day only', () => {
    const wishes = askNew(moveTo(keepIn(notToday(none, 'a'), 'b', 3), ['b', 'c'], 'c', 0), true);
    expect(readWishes(JSON.parse(JSON.stringify(wishes)), DAY)).toEqual(wishes);
    expect(readWishes(wishes, DAY + 1)).toEqual(noWishes(DAY + 1));
    const spoilt = [null, 7, 'x', [], {}, { day: DAY, skipped: 3, pinned: [null, { key: 1, at: 2 }] }];
    for (const kept of spoilt) expect(readWishes(kept, DAY)).toEqual(none);
    const both = { ...none, skipped: ['a', 'a', 4], pinned: [{ key: 'a', at: 1 }], order: 'abc' };
    expect(readWishes(both, DAY)).toEqual({ ...none, pinned: [{ key: 'a', at: 1 }] });
  });
});

describe('what was drilled today', () => {
  const tune = tuneOf();
  const [a1, a2] = passagesOf(tune).figures;
  const sitting = (at: number, drills: Drill[], log: LogEntry[]) => ({ at, offsetMin: -300, drills, log });
  const drill = (id: string, passage: Drill['passage'], at: number): Drill => ({
    ...{ id, sittingId: 's', passage, climb: 'steady', at, offsetMin: -300 },
  });
  const pass = (drillId: string, at: number): LogEntry => ({
    ...{ kind: 'pass', id: `${drillId}-${at}`, drillId, at, offsetMin: -300 },
    ...{ tempo: 60, outcome: 'clean', fromMemory: false, missAt: null },
  });

  it('is each drill that has a counted pass on this practice day, the newest last', () => {
    const at = NOW.at - HOUR_MS;
    const yesterday = NOW.at - 24 * HOUR_MS;
    const taken: LogEntry = {
      ...{ kind: 'correction', id: 'c', drillId: 'd3', passId: `d3-${at}`, at: at + 1, offsetMin: -300 },
      outcome: 'unmarked',
    };
    const sittings = [
      sitting(
        at,
        [
          drill('d1', a2!, at + 5),
          drill('d4', a1!, at + 9),
          drill('d2', a1!, at),
          drill('d3', passagesOf(tune).whole, at),
        ],
        [pass('d1', at), pass('d2', at), pass('d4', at), pass('d3', at), taken],
      ),
      sitting(yesterday, [drill('d0', passagesOf(tune).parts[0]!, yesterday)], [pass('d0', yesterday)]),
    ];
    expect(drilledToday(sittings, NOW)).toEqual([
      { key: passageKey(a1!), at },
      { key: passageKey(a2!), at: at + 5 },
      { key: passageKey(a1!), at: at + 9 },
    ]);
  });

  it('spends a pin that was made before the drill, and none made after it', () => {
    const request = { now: NOW, minutes: 20, tuning: null, hands: 'fresh' as const };
    const wishes = keepIn(keepIn(none, 'before', 10), 'after', 30);
    const drilled = ['before', 'after'].map((key) => ({ key, at: 20 }));
    expect(withWishes(request, wishes, drilled)).toMatchObject({
      ...{ pinned: ['after'], drilled: ['before', 'after'], skip: [], order: [], askNew: false },
    });
  });

  const book = ['One', 'Two'].map((title) => tuneOf({ title, form: 'A', counts: [4] }));
  const begun = new TableOfStandings();
  for (const { figures } of book.map(passagesOf)) begun.setAll(figures, 60, { isSettled: false });

  it('does not come back at once while there is anything else', () => {
    const [done] = keys(planFor(book, begun, { minutes: 12 }));
    const rest = planFor(book, begun, { minutes: 9, drilled: [done!] });
    expect(keys(rest)).not.toContain(done);
    expect(rest.items.length).toBeGreaterThan(1);

    const short = [tuneOf({ form: 'A', counts: [2] })];
    const { figures, parts } = passagesOf(short[0]!);
    const few = new TableOfStandings().setAll(figures, 60, { isSettled: false });
    const [a1, a2] = figures.map(passageKey);
    const part = passageKey(parts[0]!);
    const after = (...drilled: string[]) => keys(planFor(short, few, { minutes: 20, drilled }));
    expect(after(a1!)).toEqual([part, a2]);
    expect(after(a1!, a2!)).toEqual([part, a1]);
    expect(after(a1!, a2!, part)).toEqual([a1, a2]);

    const one = tuneOf({ form: 'A', counts: [1] });
    const only = new TableOfStandings().setAll(passagesOf(one).figures, 60);
    const key = passageKey(passagesOf(one).figures[0]!);
    expect(keys(planFor([one], only, { minutes: 20, drilled: [key] }))).toEqual([key]);
  });

  it('is worth much less when it comes back if it is short, a little less if it is a part', () => {
    const minutes = 12;
    const { items } = planFor(book, begun, { minutes });
    const [part, hard] = [
      items.find(({ kind }) => kind === 'part'),
      items.find(({ kind }) => kind !== 'part'),
    ];
    const last = passageKey(passagesOf(book[1]!).seams[0]!);
    const after = (key: string) => keys(planFor(book, begun, { minutes, drilled: [key, last] }));
    expect(after(hard!.key)).not.toContain(hard!.key);
    expect(after(part!.key)).toContain(part!.key);
  });

  it('asks for no second warm-up', () => {
    const { figures } = passagesOf(tune);
    const standings = new TableOfStandings()
      .setAll(figures.slice(0, 3), 101)
      .set(figures[3]!, 60, { isSettled: false });
    const kinds = (change: Partial<PlanRequest>) =>
      planFor([tune], standings, change).items.map(({ reasonKind }) => reasonKind);
    expect(kinds({})).toContain('warm-up');
    expect(kinds({ drilled: [passageKey(figures[0]!)] })).not.toContain('warm-up');
  });

  it('counts the minutes since the last rest', () => {
    const book = Array.from({ length: 8 }, (_, index) => tuneOf({ title: `Tune ${index}` }));
    const standings = new TableOfStandings();
    for (const { figures } of book.map(passagesOf)) standings.setAll(figures, 60, { isSettled: false });
    expect(planFor(book, standings, { minutes: 25 }).breaks).toEqual([]);
    const rest = planFor(book, standings, { minutes: 25, sinceRest: 20 });
    const [first] = rest.breaks;
    const played = rest.items.slice(0, first!.afterItem + 1).reduce((sum, { minutes }) => sum + minutes, 20);
    expect(played).toBeLessThanOrEqual(30);
    expect(rest.minutes).toBeLessThanOrEqual(25);
    expect(planFor(book, standings, { minutes: 25, sinceRest: 40 }).breaks[0]?.afterItem).toBe(-1);
    expect(planFor(book, standings, { minutes: 5, sinceRest: 40 }).items.length).toBeGreaterThan(0);
    // however long it was played, one rest answers for it
    expect(planFor(book, standings, { minutes: 12, sinceRest: 49 }).minutes).toBeGreaterThan(9);
  });
});

describe('new things', () => {
  const tunes = ['One', 'Two', 'Three', 'Four'].map((title) => tuneOf({ title, form: 'A', counts: [4] }));
  const newTitles = (plan: Plan) => [
    ...new Set(plan.items.filter(({ reasonKind }) => reasonKind === 'new figure').map(({ title }) => title)),
  ];

  it('are one tune a plan, and two when one more is asked for', () => {
    const standings = new TableOfStandings();
    expect(newTitles(planFor(tunes, standings, { minutes: 60 }))).toHaveLength(1);
    const asked = planFor(tunes, standings, { minutes: 60, askNew: true });
    expect(newTitles(asked)).toHaveLength(2);
    expect(asked.asked).toMatch(/^You asked for one more new thing: \w+, measures 1–4, part A\.$/);
  });

  it('are no further tune on a day that has brought one, unless asked', () => {
    const [first] = tunes;
    const standings = new TableOfStandings().set(passagesOf(first!).figures[0]!, 60, {
      ...{ daysAgo: 0, days: 1, isSettled: false },
    });
    const plan = planFor(tunes, standings, { minutes: 60 });
    expect(newTitles(plan)).toEqual(['One']);
    expect(plan.leftOut.map(({ why }) => why)).toContain(
      'Not begun: one new thing a day, and today that is One.',
    );
    expect(newTitles(planFor(tunes, standings, { minutes: 60, askNew: true }))).toHaveLength(2);
    standings.set(passagesOf(tunes[1]!).figures[0]!, 60, { daysAgo: 0, days: 1, isSettled: false });
    const enough = planFor(tunes, standings, { minutes: 60, askNew: true });
    expect(enough.asked).toBe(
      'You asked for one more new thing: One and Two have new measures today, and that is enough.',
    );
    expect(newTitles(enough).filter((title) => title === 'Three' || title === 'Four')).toEqual([]);
  });

  it('go beyond the tunes in the making when asked', () => {
    const standings = new TableOfStandings();
    for (const tune of tunes.slice(0, 3))
      standings.setAll(passagesOf(tune).figures, 60, { isSettled: false });
    expect(newTitles(planFor(tunes, standings, {}))).toEqual([]);
    expect(newTitles(planFor(tunes, standings, { askNew: true }))).toEqual(['Four']);
  });

  it('are not for tired hands, and say so', () => {
    const plan = planFor(tunes, new TableOfStandings(), { askNew: true, hands: 'tired' });
    expect(plan.asked).toMatch(/hands ask for less/);
    const alone = planFor(tunes.slice(0, 1), new TableOfStandings(), { askNew: true });
    expect(alone.asked).toMatch(/no other tune or layer is ready/);
  });
});
