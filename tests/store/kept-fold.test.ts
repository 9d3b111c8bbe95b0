import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { describe, expect, test } from 'vitest';
import { foldStandings } from '../../src/lib/core/practice/standings';
import { keepFold, resumeFold, type Folded } from '../../src/lib/core/progress/kept-fold';
import { WeekTally } from '../../src/lib/core/progress/weeks';
import type { BookStore } from '../../src/lib/store/book-store';
import { drill, EVENING, pass, SMALL_BOOK, WINTER_TUNE } from '../core/book/made-up-books';
import { freshName, loseDatabase, openStore } from './made-up-store';

const { endedAt: _endedAt, drills: _drills, log: _log, ...SITTING } = EVENING;
const now = { at: EVENING.endedAt + 86_400_000, offsetMin: 0 };

async function foldOf(store: BookStore): Promise<Folded> {
  const [tunes, sittings] = [await store.tunes(), await store.sittings()];
  const tally = new WeekTally(tunes, 4);
  tally.add(sittings, now);
  return { standings: foldStandings({ tunes, sittings, now, dayStartsAtHour: 4 }), tally };
}

/** A store with the small book in it, and a fold of it that is kept. */
async function keptStore(name = freshName()): Promise<{ store: BookStore; folded: Folded }> {
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  const folded = await foldOf(store);
  await store.keepFold(keepFold(folded)!, true, await store.logRevision());
  return { store, folded };
}

async function playAndSeal(store: BookStore): Promise<void> {
  const sitting = { ...SITTING, id: SITTING.id.replace(/.$/, 'f'), at: SITTING.at + 3_600_000 };
  await store.joinSitting(sitting, () => true);
  await store.beginDrill({ ...drill(301, 300), sittingId: sitting.id });
  await store.record(pass(310, 301));
  await store.seal(sitting.at + 60_000);
}

describe('the fold that is kept', () => {
  test('comes back whole at the next start, to be gone on from', async () => {
    const name = freshName();
    const { store, folded } = await keptStore(name);
    await store.close();
    const next = await openStore(name);
    const found = await next.keptFold();
    expect(found?.revision).toBe(await next.logRevision());
    const resumed = resumeFold(found!.kept, await next.tunes(), now, 4)!;
    expect(folded.standings.toMap().size).toBeGreaterThan(0);
    expect(resumed.standings.toMap()).toEqual(folded.standings.toMap());
    expect(resumed.tally.weeks()).toEqual(folded.tally.weeks());
  });

  test('is gone as soon as tunes or sealed sittings change, and not before', async () => {
    const { store } = await keptStore();
    await store.putSetting({ key: 'minutes', value: 35, editedAt: now.at });
    expect(await store.keptFold()).not.toBeNull();
    await store.putTune({ ...WINTER_TUNE, title: 'Another', editedAt: now.at });
    expect(await store.keptFold()).toBeNull();

    const { store: played } = await keptStore();
    await playAndSeal(played);
    expect(await played.keptFold()).toBeNull();

    const { store: erased } = await keptStore();
    await erased.eraseAll();
    expect(await erased.keptFold()).toBeNull();
  });

  test('is not written over by a fold of an older log', async () => {
    const { store, folded } = await keptStore();
    const before = await store.logRevision();
    await playAndSeal(store);
    await store.keepFold(keepFold(folded)!, true, before);
    expect(await store.keptFold()).toBeNull();
  });

  test('is not believed when a part of it is missing or damaged', async () => {
    const name = freshName();
    const { store } = await keptStore(name);
    const found = await store.keptFold();
    const key = `fold/${found!.kept.parts[0]!.tuneId}`;
    const raw = await new Dexie(name).open();
    await raw.table('meta').put({ key, value: { tuneId: 'half a rec' } });
    expect(await store.keptFold()).toBeNull();
    await raw.table('meta').delete(key);
    expect(await store.keptFold()).toBeNull();
    raw.close();
  });

  test('is gone with a lost database, whose log the second copy brings back', async () => {
    const name = freshName();
    const { store } = await keptStore(name);
    await store.close();
    await loseDatabase(name);
    const next = await openStore(name);
    expect((await next.sittings()).length).toBe(SMALL_BOOK.sittings.length);
    expect(await next.keptFold()).toBeNull();
  });
});

describe('the log, read in part', () => {
  test('comes by time, in pieces, since an instant, and by tune', async () => {
    const { store } = await keptStore();
    const all = (await store.sittings()).toSorted((a, b) => a.at - b.at);
    const pieces: unknown[] = [];
    for await (const piece of store.sittingsInPieces()) pieces.push(...piece);
    expect(pieces).toEqual(all);
    expect(await store.countSittings()).toBe(all.length);
    const newest = all.at(-1)!;
    expect(await store.sittingsSince(newest.at)).toEqual([newest]);
    const { tuneId } = newest.drills[0]!.passage;
    expect((await store.sittingsOf(tuneId, 1)).map(({ id }) => id)).toEqual([newest.id]);
    expect(await store.sittingsOf('none', 5)).toEqual([]);
  });
});
