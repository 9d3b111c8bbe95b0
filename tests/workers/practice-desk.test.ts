import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import { readBackup } from '$lib/core/book/backup';
import { passageKey } from '$lib/core/tune/passage';
import { answer } from '$lib/workers/desk-mail';
import { PracticeDesk } from '$lib/workers/practice-desk';

const reading = readBackup(readFileSync('sample-data/demo-book.json', 'utf8'));
if (!reading.ok) throw new Error(reading.damage.join(' '));
const { book } = reading;
const now = { at: Date.UTC(2026, 10, 25, 17), offsetMin: 60 };
const request = { now, minutes: 20, tuning: null, hands: 'fresh' as const };

describe('PracticeDesk', () => {
  let desk: PracticeDesk;
  beforeEach(() => {
    desk = new PracticeDesk();
    desk.load({ tunes: book.tunes, sittings: [...book.sittings], now, dayStartsAtHour: 4 });
  });

  it('answers with plain data that can be posted', () => {
    const tune = book.tunes[0]!;
    const layerId = tune.layers[0]!.id;
    const answers = [
      desk.plan(request),
      desk.tuneList(now),
      desk.tuneBoard(tune.id, layerId, now),
      desk.progress(tune.id, now),
      desk.weeks(),
      desk.standing({ kind: 'tune', tuneId: tune.id, layerId }, now),
      desk.explain({ kind: 'tune', tuneId: tune.id, layerId }, now),
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
    const sorted = book.sittings.toSorted((a, b) => a.at - b.at);
    const last = sorted.at(-1)!;
    const other = new PracticeDesk();
    other.load({ tunes: book.tunes, sittings: sorted.slice(0, -1), now, dayStartsAtHour: 4 });
    const half = { ...last, log: last.log.slice(0, 12) };
    other.take(half, now);
    expect(other.weeks().at(-1)?.passes).toBeLessThan(desk.weeks().at(-1)?.passes ?? 0);
    other.take(last, now);
    expect(other.plan(request)).toEqual(desk.plan(request));
    expect(other.tuneList(now)).toEqual(desk.tuneList(now));
    expect(other.weeks()).toEqual(desk.weeks());
    other.take({ ...sorted[0]!, log: [] }, now);
    expect(other.weeks()[0]?.passes).toBeLessThan(desk.weeks()[0]?.passes ?? 0);
  });

  it('says which tune it does not know, and the mail carries the sentence', () => {
    expect(() => desk.progress('nowhere', now)).toThrow(/No tune nowhere on the desk/);
    expect(answer(desk, { id: 3, verb: 'progress', input: ['nowhere', now] })).toEqual({
      id: 3,
      error: 'No tune nowhere on the desk: load the book again after adding one',
    });
    expect(answer(desk, { id: 4, verb: 'plan', input: [{ ...request, minutes: 1 }] })).toMatchObject({
      error: 'A plan needs 5 to 120 minutes: saw 1',
    });
    const asked = answer(desk, { id: 5, verb: 'tuneList', input: [now] });
    expect(asked).toEqual({ id: 5, value: desk.tuneList(now) });
  });

  it('plans nothing that was put off for today', () => {
    const skip = desk.plan(request).items.map(({ passage }) => passageKey(passage));
    expect(desk.plan({ ...request, skip }).items.filter(({ key }) => skip.includes(key))).toEqual([]);
  });
});
