import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import { readBackup } from '$lib/core/book/backup';
import type { SealedSitting } from '$lib/core/practice/records';
import { passageKey } from '$lib/core/tune/passage';
import { answer } from '$lib/workers/desk-mail';
import { PracticeDesk } from '$lib/workers/practice-desk';

const reading = readBackup(readFileSync('sample-data/demo-book.json', 'utf8'));
if (!reading.ok) throw new Error(reading.damage.join(' '));
const { book } = reading;
const now = { at: Date.UTC(2026, 10, 25, 17), offsetMin: 60 };
const request = { now, minutes: 20, tuning: null, hands: 'fresh' as const };

const deskBook = { tunes: book.tunes, now, dayStartsAtHour: 4 };
const sorted = book.sittings.toSorted((a, b) => a.at - b.at);
const last = sorted.at(-1)!;

/** Whether two desks answer alike. */
function expectSame(one: PracticeDesk, other: PracticeDesk): void {
  expect(one.plan(request)).toEqual(other.plan(request));
  expect(one.tuneList(now)).toEqual(other.tuneList(now));
  expect(one.weeks(now)).toEqual(other.weeks(now));
  for (const { id } of book.tunes) expect(one.progress(id, now)).toEqual(other.progress(id, now));
}

/** A desk that was given a log piece by piece. */
function piecewise(sittings: readonly SealedSitting[], size: number): PracticeDesk {
  const desk = new PracticeDesk();
  desk.begin(deskBook);
  for (let from = 0; from < sittings.length; from += size) {
    expect(desk.add(sittings.slice(from, from + size))).toBe(true);
  }
  expect(desk.finish()).toBe(true);
  return desk;
}

describe('PracticeDesk', () => {
  let desk: PracticeDesk;
  beforeEach(() => {
    desk = new PracticeDesk();
    desk.load(deskBook, [...book.sittings]);
  });

  it('answers with plain data that can be posted', () => {
    const tune = book.tunes[0]!;
    const layerId = tune.layers[0]!.id;
    const answers = [
      desk.plan(request),
      desk.tuneList(now),
      desk.tuneBoard(tune.id, layerId, now),
      desk.progress(tune.id, now),
      desk.weeks(now),
      desk.standing({ kind: 'tune', tuneId: tune.id, layerId }, now),
      desk.explain({ kind: 'tune', tuneId: tune.id, layerId }, now, [...book.sittings]),
    ];
    for (const value of answers) expect(structuredClone(value)).toEqual(value);
  });

  it('shows a board with a standing for every tile and seam', () => {
    const tune = book.tunes[0]!;
    const board = desk.tuneBoard(tune.id, tune.layers[0]!.id, now);
    expect(board.figures).toBe(tune.figures.length);
    expect(board.passes).toBeGreaterThan(100);
    expect(board.standings[board.slowest!]?.settled?.tempo).toBe(board.settled?.tempo);
    for (const key of board.openSeams) expect(board.standings[key]?.passage.kind).toBe('seam');
  });

  it('takes in a sitting as if it had been there from the start', () => {
    const other = piecewise(sorted.slice(0, -1), 3);
    const half = { ...last, log: last.log.slice(0, 12) };
    expect(other.take(half, now)).toBe(true);
    expect(other.weeks(now).at(-1)?.passes).toBeLessThan(desk.weeks(now).at(-1)?.passes ?? 0);
    expect(other.take(last, now)).toBe(true);
    expectSame(other, desk);
    expect(other.take(sorted[0]!, now)).toBe(false);
    expect(other.seal(last, now)).toBe(true);
    expect(other.take(sorted[0]!, now)).toBe(false);
    expectSame(other, desk);
  });

  it('folds a log piece by piece as all at once, and asks for all at once when it is out of order', () => {
    expectSame(piecewise(sorted, 7), desk);
    const other = new PracticeDesk();
    expect(() => other.add(sorted)).toThrow(/call begin first/);
    other.begin(deskBook);
    expect(other.add([sorted[1]!, sorted[2]!, last, sorted[0]!]) && other.finish()).toBe(false);
    other.begin(deskBook);
    expect(other.add([{ ...last, drills: last.drills.slice(1) }]) && other.finish()).toBe(false);
  });

  it('folds sittings that overlap, as those of two devices do, piece by piece as all at once', () => {
    const renamed = (id: string): string => `f${id.slice(1)}`;
    const overlapping = sorted.flatMap((sitting, place) => {
      const elsewhere = {
        ...sitting,
        ...{ id: renamed(sitting.id), at: sitting.at + 60_000, endedAt: sitting.endedAt + 60_000 },
        drills: sitting.drills.map((drill) => ({ ...drill, id: renamed(drill.id) })),
        log: sitting.log.map((entry) => ({
          ...entry,
          ...{ id: renamed(entry.id), drillId: renamed(entry.drillId), at: entry.at + 60_000 },
          ...('passId' in entry && { passId: renamed(entry.passId) }),
        })),
      };
      return place % 3 === 0 ? [sitting, elsewhere] : [sitting];
    });
    const whole = new PracticeDesk();
    whole.load(deskBook, overlapping);
    expectSame(piecewise(overlapping, 4), whole);
  });

  it('goes on with its fold when the tunes have changed, until the log is folded for them', () => {
    const before = desk.tuneList(now);
    const [first, ...others] = book.tunes;
    const added = { ...first!, id: 'another', title: 'Another' };
    desk.retune({ ...deskBook, tunes: [added, { ...first!, title: 'Renamed' }, ...others] });
    const after = desk.tuneList(now);
    expect(after.find(({ tuneId }) => tuneId === 'another')?.settled ?? null).toBeNull();
    for (const { tuneId, settled } of before) {
      expect(after.find((summary) => summary.tuneId === tuneId)?.settled).toEqual(settled);
    }
    expect(desk.weeks(now).at(-1)?.passes).toBeGreaterThan(0);
  });

  it('answers by what it had until a new log has been folded', () => {
    const before = desk.tuneList(now);
    desk.begin(deskBook);
    desk.add(sorted.slice(0, 3));
    expect(desk.tuneList(now)).toEqual(before);
    desk.finish();
    expect(desk.tuneList(now)).not.toEqual(before);
  });

  it('goes on from what was kept, sitting by sitting, as if it had read the log', () => {
    const first = piecewise(sorted.slice(0, -2), 50);
    expect(first.take(sorted.at(-2)!, now)).toBe(true);
    // the open sitting is not in what is kept
    const whole = structuredClone(first.keep()!);
    expect(whole.isWhole).toBe(true);
    expect(first.seal(sorted.at(-2)!, now)).toBe(true);
    const changed = structuredClone(first.keep()!);
    expect(changed.isWhole).toBe(false);
    expect(changed.kept.parts.length).toBeLessThan(whole.kept.parts.length);
    const parts = new Map([...whole.kept.parts, ...changed.kept.parts].map((part) => [part.part, part]));

    const next = new PracticeDesk();
    expect(next.resume(deskBook, { head: changed.kept.head, parts: [...parts.values()] }, [])).toBe(true);
    expect(next.seal(last, now)).toBe(true);
    expectSame(next, desk);
    expect(next.keep()?.isWhole).toBe(false);
  });

  it('does not go on from a fold of another program, of another beginning of the day, or that looked ahead', () => {
    const { kept } = desk.keep()!;
    const other = new PracticeDesk();
    const head = { ...kept.head, print: `${kept.head.print} ` };
    expect(other.resume(deskBook, { ...kept, head }, [])).toBe(false);
    expect(other.resume({ ...deskBook, dayStartsAtHour: 3 }, kept, [])).toBe(false);
    expect(other.tuneList(now)).toEqual([]);
    other.load({ ...deskBook, now: { ...now, at: last.at } }, [...book.sittings]);
    expect(other.keep()).toBeNull();
  });

  it('says which tune it does not know, and the mail carries the sentence', async () => {
    expect(() => desk.progress('nowhere', now)).toThrow(/No tune nowhere on the desk/);
    expect(await answer(desk, { id: 3, verb: 'progress', input: ['nowhere', now] })).toEqual({
      id: 3,
      error: 'No tune nowhere on the desk: load the book again after adding one',
    });
    expect(await answer(desk, { id: 4, verb: 'plan', input: [{ ...request, minutes: 1 }] })).toMatchObject({
      error: 'A plan needs 5 to 120 minutes: saw 1',
    });
    const asked = await answer(desk, { id: 5, verb: 'tuneList', input: [now] });
    expect(asked).toEqual({ id: 5, value: desk.tuneList(now) });
  });

  it('plans nothing that was put off for today', () => {
    const skip = desk.plan(request).items.map(({ passage }) => passageKey(passage));
    expect(desk.plan({ ...request, skip }).items.filter(({ key }) => skip.includes(key))).toEqual([]);
  });
});
