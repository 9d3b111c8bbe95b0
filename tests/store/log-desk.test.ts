import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { expect, test } from 'vitest';
import type { SealedSitting } from '../../src/lib/core/practice/records';
import { DAY_MS } from '../../src/lib/core/time/moment';
import { LogDesk, type BookToRead } from '../../src/lib/workers/log-desk';
import { PracticeDesk } from '../../src/lib/workers/practice-desk';
import { drill, EVENING, idOf, pass, SMALL_BOOK } from '../core/book/made-up-books';
import { freshName, openStore } from './made-up-store';

/** After the evening. */
const NIGHT: SealedSitting = {
  ...EVENING,
  id: idOf(2000),
  at: EVENING.at + 2_000_000,
  endedAt: EVENING.at + 3_000_000,
  drills: [drill(2001, 2000)],
  log: [pass(2010, 2001), pass(2011, 2001)],
};
const LOG = [EVENING, NIGHT];
const now = { at: EVENING.at + DAY_MS, offsetMin: 60 };

/** The name of a stored book, and how to read it. */
async function stored(sittings: readonly SealedSitting[] = LOG): Promise<BookToRead> {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn({ ...SMALL_BOOK, sittings: [...sittings] });
  await store.close();
  return { name, now, dayStartsAtHour: 4, open: null };
}

function atOnce(sittings: readonly SealedSitting[]): PracticeDesk {
  const desk = new PracticeDesk();
  desk.load({ tunes: SMALL_BOOK.tunes, now, dayStartsAtHour: 4 }, [...sittings]);
  return desk;
}

function expectSame(desk: PracticeDesk, other: PracticeDesk): void {
  expect(desk.tuneList(now)).toEqual(other.tuneList(now));
  expect(desk.weeks(now)).toEqual(other.weeks(now));
}

test('a log is folded once, and the next start goes on from what was kept of it', async () => {
  const from = await stored();
  const shares: number[] = [];
  const desk = new LogDesk((share) => shares.push(share));
  expect(await desk.open(from)).toBeNull();
  const { revision, isDamaged } = await desk.fold(from);
  expect(isDamaged).toBe(false);
  expect(shares.at(-1)).toBe(1);
  expectSame(desk, atOnce(LOG));
  expect(desk.tuneList(now).length).toBeGreaterThan(0);
  await desk.keepFor(revision!);

  const next = new LogDesk(() => undefined);
  expect(await next.open(from)).toBe(revision);
  expectSame(next, desk);
});

test('an open sitting that began before the newest sealed one is folded into its place, and nothing of that is kept', async () => {
  const from = { ...(await stored([NIGHT])), open: EVENING };
  const desk = new LogDesk(() => undefined);
  await desk.open(from);
  expect(await desk.fold(from)).toEqual({ revision: null, isDamaged: false });
  expectSame(desk, atOnce(LOG));
});

test('a damaged sitting is passed over, and said to be', async () => {
  const from = await stored();
  const raw = await new Dexie(from.name).open();
  await raw.table('sittings').put({ ...EVENING, log: 'lost' });
  raw.close();
  const desk = new LogDesk(() => undefined);
  await desk.open(from);
  expect((await desk.fold(from)).isDamaged).toBe(true);
  expectSame(desk, atOnce([NIGHT]));
});

test('a fold ends as soon as the book is opened again', async () => {
  const from = await stored();
  const desk = new LogDesk(() => undefined);
  await desk.open(from);
  const ended = expect(desk.fold(from)).rejects.toThrow(/read again/);
  await desk.open(from);
  await ended;
});
