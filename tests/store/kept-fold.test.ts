import { Dexie } from 'dexie/dist/modern/dexie.min.mjs';
import { afterEach, describe, expect, test } from 'vitest';
import type { SealedSitting } from '../../src/lib/core/practice/records';
import { foldStandings } from '../../src/lib/core/practice/standings';
import { keepFold, resumeFold, type Folded, type KeptFold } from '../../src/lib/core/progress/kept-fold';
import { WeekTally } from '../../src/lib/core/progress/weeks';
import type { BookStore } from '../../src/lib/store/book-store';
import { drill, EVENING, pass, SMALL_BOOK, WINTER_TUNE } from '../core/book/made-up-books';
import { LogReader } from '../../src/lib/store/log-reader';
import { runBackupJob } from '../../src/lib/workers/backup-client';
import { freshName, loseDatabase, openStore } from './made-up-store';

const { endedAt: _endedAt, drills: _drills, log: _log, ...SITTING } = EVENING;
const now = { at: EVENING.endedAt + 86_400_000, offsetMin: 0 };

async function foldOf(store: BookStore): Promise<Folded> {
  const [tunes, sittings] = [await store.tunes(), await store.sittings()];
  const tally = new WeekTally(tunes, 4);
  tally.add(sittings, now);
  return { standings: foldStandings({ tunes, sittings, now, dayStartsAtHour: 4 }), tally };
}

const readers: LogReader[] = [];
afterEach(() => {
  for (const reader of readers.splice(0)) reader.close();
});

async function read(name: string): Promise<LogReader> {
  const reader = await LogReader.open(name, () => undefined);
  readers.push(reader);
  return reader;
}

/** What was kept of the log as it stands. */
async function keptOf(reader: LogReader): Promise<KeptFold | null> {
  const { kept, revision } = await reader.start(now.at);
  return kept?.revision === revision ? kept.fold : null;
}

/** A store with the small book in it, and a fold of it that is kept. */
async function keptStore(
  name = freshName(),
): Promise<{ store: BookStore; reader: LogReader; folded: Folded }> {
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  const folded = await foldOf(store);
  const reader = await read(name);
  await reader.keep(keepFold(folded)!, true, await store.logRevision());
  return { store, reader, folded };
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
    const { kept, revision, tunes, sittings } = await (await read(name)).start(now.at);
    expect(kept?.revision).toBe(await next.logRevision());
    expect(revision).toBe(kept?.revision);
    expect(tunes).toEqual(await next.tunes());
    expect(sittings).toBe(SMALL_BOOK.sittings.length);
    const resumed = resumeFold(kept!.fold, tunes, now, 4)!;
    expect(folded.standings.toMap().size).toBeGreaterThan(0);
    expect(resumed.standings.toMap()).toEqual(folded.standings.toMap());
    expect(resumed.tally.weeks()).toEqual(folded.tally.weeks());
  });

  test('is gone as soon as tunes or sealed sittings change, and not before', async () => {
    const { store, reader } = await keptStore();
    await store.putSetting({ key: 'minutes', value: 35, editedAt: now.at });
    expect(await keptOf(reader)).not.toBeNull();
    await store.putTune({ ...WINTER_TUNE, title: 'Another', editedAt: now.at });
    expect(await keptOf(reader)).toBeNull();

    const { store: played, reader: afterwards } = await keptStore();
    await playAndSeal(played);
    expect(await keptOf(afterwards)).toBeNull();

    const { store: erased, reader: empty } = await keptStore();
    await erased.eraseAll();
    expect(await keptOf(empty)).toBeNull();
  });

  test('is not written over by a fold of an older log', async () => {
    const { store, reader, folded } = await keptStore();
    const before = await store.logRevision();
    await playAndSeal(store);
    await reader.keep(keepFold(folded)!, true, before);
    expect(await keptOf(reader)).toBeNull();
  });

  test('is not believed when a part of it is missing or damaged', async () => {
    const name = freshName();
    const { reader } = await keptStore(name);
    const found = await keptOf(reader);
    const key = `fold/${found!.parts[0]!.part}`;
    const raw = await new Dexie(name).open();
    await raw.table('meta').put({ key, value: { tuneId: 'half a rec' } });
    expect(await keptOf(reader)).toBeNull();
    await raw.table('meta').delete(key);
    expect(await keptOf(reader)).toBeNull();
    raw.close();
  });

  test('is gone with a lost database, whose log the second copy brings back', async () => {
    const name = freshName();
    const { store } = await keptStore(name);
    await store.close();
    await loseDatabase(name);
    const next = await openStore(name);
    expect((await next.sittings()).length).toBe(SMALL_BOOK.sittings.length);
    expect(await keptOf(await read(name))).toBeNull();
  });
});

describe('the log, read in part', () => {
  test('comes by time, in pieces, since an instant, the newest, and by tune', async () => {
    const { store, reader } = await keptStore();
    const all = (await store.sittings()).toSorted((a, b) => a.at - b.at);
    expect(await piecesOf(reader)).toEqual(all);
    const newest = all.at(-1)!;
    expect((await reader.start(newest.at)).recent).toEqual([newest]);
    expect(await reader.newest(2)).toEqual(all.slice(-2));
    const { tuneId } = newest.drills[0]!.passage;
    expect((await store.sittingsOf(tuneId, 1)).map(({ id }) => id)).toEqual([newest.id]);
    expect(await store.sittingsOf('none', 5)).toEqual([]);
  });

  test('comes whole when more sittings than a piece began at one instant, and without rows that are none', async () => {
    const name = freshName();
    const store = await openStore(name);
    const [sitting] = SMALL_BOOK.sittings;
    const count = 350;
    const rows = Array.from({ length: count }, (_, place) => ({
      ...sitting!,
      id: sitting!.id.replace(/.{3}$/, String(place).padStart(3, '0')),
      at: sitting!.at + Math.floor(place / 300),
    }));
    const raw = await new Dexie(name).open();
    await raw.table('sittings').bulkPut(rows);
    await raw.table('sittings').bulkPut([{ id: 'torn', at: sitting!.at }, { id: 'no time' }]);
    raw.close();
    const reader = await read(name);
    expect((await piecesOf(reader)).map(({ id }) => id)).toEqual(rows.map(({ id }) => id));
    expect((await reader.start(sitting!.at)).sittings).toBe(count + 2);
    const { damaged } = await runBackupJob(new AbortController().signal, 'look', { book: name });
    expect(damaged).toEqual(['no time', 'torn']);
    await store.lookAt(damaged);
    expect((await store.setAside()).rows.map(({ id }) => id)).toEqual(['no time', 'torn']);
    await store.close();
  });

  test('opens no book that is not there', async () => {
    const name = freshName();
    await expect(LogReader.open(name, () => undefined)).rejects.toThrow();
    expect((await indexedDB.databases()).map((database) => database.name)).not.toContain(name);
  });
});

async function piecesOf(reader: LogReader): Promise<SealedSitting[]> {
  const all: SealedSitting[] = [];
  for await (const piece of reader.pieces()) all.push(...piece);
  return all;
}
