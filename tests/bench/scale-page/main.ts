import type { LogEntry, SealedSitting } from '../../../src/lib/core/practice/records';
import { openDatabase, type BookDatabase } from '../../../src/lib/store/database';
import { raiseLogRevision } from '../../../src/lib/store/fold-rows';
import { SecondCopy } from '../../../src/lib/store/second-copy';
import { newStamp, writeStamp } from '../../../src/lib/store/stamp';
import type { BookStore } from '../../../src/lib/store/book-store';
import { bigLife, type BIG } from '../big-book';
import { bareReads, bareWrites } from './bare';
import { bareBackup } from './bare-backup';

const BOOK = 'phrasewright';
/** Records a transaction. */
const BATCH = 250;

/** Writes a made-up life into the book's database and its second copy, by the record. Nothing is folded: the app does that. */
async function fill(size: typeof BIG, firstDay: number): Promise<void> {
  const db = await openDatabase(BOOK, () => undefined);
  const copy = await SecondCopy.open(BOOK);
  if (!copy) throw new Error('This browser has no file system for the second copy');
  const life = bigLife(size, firstDay);
  let batch: SealedSitting[] = [];
  const write = async (): Promise<void> => {
    await db.sittings.bulkAdd(batch);
    await copy.appendSittings(batch);
    batch = [];
  };
  let step = life.next();
  for (; !step.done; step = life.next()) {
    batch.push(step.value);
    if (batch.length === BATCH) await write();
  }
  await write();
  await db.tunes.bulkAdd(step.value);
  await copy.writeTunes(step.value);
  const stamp = { ...newStamp(), revision: 1 };
  await db.transaction('rw', db.meta, async () => {
    await writeStamp(db, stamp);
    await raiseLogRevision(db);
  });
  await copy.writeMarker({ ...stamp, isErasing: false });
  db.close();
}

/** Makes the fold that was kept one of another program, so that the next start reads the log anew. */
async function spoilFold(): Promise<void> {
  const db: BookDatabase = await openDatabase(BOOK, () => undefined);
  const row = await db.meta.get('fold');
  if (!row) throw new Error('No fold was kept');
  const value = row.value as { head: { print: string } };
  value.head.print = 'of another program';
  await db.meta.put({ key: 'fold', value });
  db.close();
}

async function settle(times: number[], work: () => Promise<unknown>): Promise<void> {
  const before = performance.now();
  await work();
  times.push(performance.now() - before);
}

interface Written {
  /** ms of each pass, until both copies had it. */
  passes: number[];
  sealMs: number;
}

/** Plays a sitting of one drill through the built app's own store. */
async function play(storeUrl: string, passes: number): Promise<Written> {
  const chunk = (await import(/* @vite-ignore */ storeUrl)) as Record<string, unknown>;
  const found = [chunk, ...Object.values(chunk)].find(
    (value): value is { BookStore: typeof BookStore } =>
      typeof value === 'object' && value !== null && 'BookStore' in value,
  );
  if (!found) throw new Error(`${storeUrl} has no store in it`);
  const store = await found.BookStore.open();
  const tune = (await store.tunes()).at(-1);
  const figureId = tune?.figures[0]?.id;
  if (!tune || figureId === undefined) throw new Error('The book has no tune');
  const moment = { at: Date.now(), offsetMin: 0 };
  const id = (serial: number): string =>
    `${moment.at.toString(16).padStart(12, '0').replace(/^.{8}/, '$&-')}-7000-8000-${String(serial).padStart(12, '0')}`;
  const [sittingId, drillId] = [id(1), id(2)];
  await store.joinSitting(
    { ...{ ...moment, id: sittingId, minutes: 20, tuning: null, hands: 'fresh', note: '' }, origin: 'own' },
    () => true,
  );
  await store.beginDrill({
    ...{ ...moment, id: drillId, sittingId, climb: 'steady' },
    passage: { kind: 'figure', tuneId: tune.id, figureId },
  });
  const written: Written = { passes: [], sealMs: NaN };
  for (let pass = 0; pass < passes; pass++) {
    const entry: LogEntry = {
      ...{ ...moment, at: moment.at + pass, kind: 'pass', id: id(100 + pass), drillId, tempo: 80 },
      ...{ outcome: 'clean', fromMemory: true, missAt: null },
    };
    await settle(written.passes, () => store.record(entry));
  }
  const seals: number[] = [];
  await settle(seals, () => store.seal(moment.at + passes));
  written.sealMs = seals[0] ?? NaN;
  await store.close();
  return written;
}

const scalePage = { fill, spoilFold, play, bareReads, bareWrites, bareBackup };
export type ScalePage = typeof scalePage;
Object.assign(globalThis, { scalePage });
