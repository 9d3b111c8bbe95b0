import { describe, expect, test } from 'vitest';
import { readBackup, writeBackup } from '../../src/lib/core/book/backup';
import { bookCounts, emptyBook, sortBook, type Book } from '../../src/lib/core/book/book';
import type { Moment } from '../../src/lib/core/time/moment';
import type { BookStore } from '../../src/lib/store/book-store';
import { runBackupJob } from '../../src/lib/workers/backup-client';
import type { BackupProgress, FileOffer } from '../../src/lib/workers/backup-mail';
import {
  drill,
  EVENING,
  figure,
  idOf,
  measure,
  pass,
  SMALL_BOOK,
  START,
  WINTER_TUNE,
} from '../core/book/made-up-books';
import { copyFolder, freshName, loseDatabase, openStore } from './made-up-store';

const NOW: Moment = { at: START, offsetMin: 60 };
const never = new AbortController().signal;

async function save(book: string, isPacked = true): Promise<File> {
  const name = isPacked ? 'phrasewright.json.gz' : 'phrasewright.json';
  const { file, damage, leftOut } = await runBackupJob(never, 'save', { book, now: NOW, name, isPacked });
  expect([...damage, ...leftOut]).toEqual([]);
  return file;
}

const check = (file: Blob): Promise<FileOffer> => runBackupJob(never, 'check', { file });

async function merge(book: string, file: Blob) {
  const offer = await check(file);
  if (!offer.ok) throw new Error(offer.damage.join('; '));
  return runBackupJob(never, 'merge', { book, file, checksum: offer.checksum, exportedAt: offer.exportedAt });
}

const unsavedIn = async (book: string) => (await (await openStore(book)).backups.read()).sittings;

test('a backup that was merged in counts as one: only what it lacks is in none', async () => {
  const [here, other] = [freshName(), freshName()];
  const store = await openStore(here);
  await store.mergeIn(longBook(5, 2));
  expect(await unsavedIn(here)).toBe(5);
  const file = await save(here);

  // the same book put back where there was none, and where it is already
  await merge(other, file);
  expect(await (await openStore(other)).backups.read()).toMatchObject({ sittings: 0, savedAt: START });
  await merge(here, file);
  expect(await unsavedIn(here)).toBe(0);

  // two devices that practised apart: each still lacks a backup of its own sittings
  const evening = { ...EVENING, id: idOf(7000), drills: [drill(7001, 7000)], log: [pass(7002, 7001)] };
  const third = freshName();
  await (await openStore(third)).mergeIn({ ...emptyBook(), sittings: [evening] });
  await merge(third, file);
  expect(await unsavedIn(third)).toBe(1);
  // a later pass in a sitting that the file has too is in no backup
  const [first] = longBook(5, 2).sittings;
  if (!first) throw new Error('There is no sitting.');
  const longer = { ...first, log: [...first.log, pass(7010, 2000)] };
  const fourth = freshName();
  await (await openStore(fourth)).mergeIn({ ...emptyBook(), sittings: [longer] });
  await merge(fourth, file);
  expect(await unsavedIn(fourth)).toBe(1);
});

/** Unpacked by the platform, not by us. */
async function textOf(file: Blob): Promise<string> {
  return new Response(file.stream().pipeThrough(new DecompressionStream('gzip'))).text();
}

/** A book whose sittings fill more than one piece of reading, and of merging. */
function longBook(sittings: number, passes: number): Book {
  const many = Array.from({ length: sittings }, (_, index) => {
    const base = 2000 + index;
    const log = Array.from({ length: passes }, (_, n) => {
      const entry = pass(3, base);
      return {
        ...entry,
        id: `0195aaaa-0000-7000-8000-${(index * passes + n).toString(16).padStart(12, '0')}`,
      };
    });
    const ofSitting = {
      ...drill(base, 0),
      sittingId: `0195bbbb-0000-7000-8000-${String(index).padStart(12, '0')}`,
    };
    return { ...EVENING, at: START + index * 86_400_000, id: ofSitting.sittingId, drills: [ofSitting], log };
  });
  return { ...SMALL_BOOK, sittings: many };
}

describe('two devices that practise apart and swap files', () => {
  test('end with the same book, byte for byte', async () => {
    const [phone, tablet] = [freshName(), freshName()];
    const [onPhone, onTablet] = [await openStore(phone), await openStore(tablet)];
    await onPhone.mergeIn(SMALL_BOOK);
    await merge(tablet, await save(phone));

    const later = (minutes: number): number => START + minutes * 60_000;
    const [plain, drop] = [WINTER_TUNE.layers[0]!, WINTER_TUNE.layers[1]!];
    await onPhone.putTune({
      ...WINTER_TUNE,
      title: 'The Miller’s Supper',
      editedAt: later(1),
      parts: [{ name: 'A', measures: [measure(10, 20)] }, WINTER_TUNE.parts[1]!],
      shelf: [measure(11, 21)],
      layers: [plain],
      layerShelf: [{ ...drop, editedAt: later(3) }],
    });
    await onTablet.putTune({
      ...WINTER_TUNE,
      figures: [
        { ...WINTER_TUNE.figures[0]!, beats: 3, editedAt: later(2) },
        figure(21),
        WINTER_TUNE.figures[2]!,
      ],
      layers: [plain, { ...drop, changes: { [idOf(11)]: idOf(22) }, changedAt: { [idOf(11)]: later(2) } }],
    });
    const gone = { ...WINTER_TUNE, id: idOf(2), title: 'Given up' };
    await onPhone.putTune(gone);
    await onTablet.putTune({ ...gone, deletedAt: later(4), editedAt: later(4) });
    await onTablet.mergeIn({ ...emptyBook(), tunes: [{ ...WINTER_TUNE, id: idOf(3), origin: 'demo' }] });
    await onPhone.putSetting({ key: 'minutes', value: 45, editedAt: later(1) });
    await onTablet.putSetting({ key: 'minutes', value: 15, editedAt: later(2) });
    await practise(onPhone, 600);
    await practise(onTablet, 700);

    const [fromPhone, fromTablet] = [await save(phone), await save(tablet, false)];
    expect(await merge(phone, fromTablet)).toEqual({ tunes: 1, sittings: 1, passes: 3 });
    expect(await merge(tablet, fromPhone)).toEqual({ tunes: 0, sittings: 1, passes: 3 });
    const text = await textOf(await save(phone));
    expect(await textOf(await save(tablet))).toBe(text);

    // the same files again change nothing
    expect(await merge(phone, fromTablet)).toEqual({ tunes: 0, sittings: 0, passes: 0 });
    expect(await textOf(await save(phone))).toBe(text);
    const { book } = readBackup(text) as { book: Book };
    expect(book.tunes.map(({ deletedAt }) => deletedAt)).toEqual([null, later(4), null]);
    expect(book.tunes[0]).toMatchObject({ title: 'The Miller’s Supper', figures: [{ beats: 3 }, {}, {}] });
    expect(book.tunes[0]?.layerShelf?.[0]?.changes).toMatchObject({ [idOf(11)]: idOf(22) });
    expect(book.settings.find(({ key }) => key === 'minutes')?.value).toBe(15);
  });

  async function practise(store: BookStore, number: number): Promise<void> {
    const { endedAt: _endedAt, drills: _drills, log: _log, ...sitting } = EVENING;
    await store.joinSitting({ ...sitting, id: idOf(number) }, () => true);
    await store.beginDrill(drill(number + 1, number));
    for (let index = 2; index < 5; index++) await store.record(pass(number + index, number + 1));
    await store.seal(START + 9_000_000);
  }
});

describe('a long book', () => {
  const long = longBook(260, 120);

  test('comes and goes in pieces, through both copies, and tells how far it is', async () => {
    const [from, to] = [freshName(), freshName()];
    await (await openStore(from)).mergeIn(long);
    const told: BackupProgress[] = [];
    const job = { book: from, now: NOW, name: 'a.json.gz', isPacked: true };
    const saved = await runBackupJob(never, 'save', job, (progress) => told.push(progress));
    expect(saved.counts).toEqual(bookCounts(long));
    expect(saved.file.size).toBeLessThan(300_000);
    expect(new Set(told.map(({ stage }) => stage))).toContain('writing');
    expect(told.every(({ share }) => share >= 0 && share <= 1)).toBe(true);

    const store = await openStore(to);
    expect(await merge(to, saved.file)).toEqual({ tunes: 1, sittings: 260, passes: 31_200 });
    expect(await runBackupJob(never, 'look', { book: to })).toEqual({
      counts: bookCounts(long),
      damaged: [],
    });
    const left = new AbortController();
    const looking = runBackupJob(left.signal, 'look', { book: to });
    left.abort();
    await expect(looking).rejects.toMatchObject({ name: 'AbortError' });
    expect(await textOf(await save(to))).toBe(await textOf(saved.file));
    await store.close();
    await loseDatabase(to);
    const again = await openStore(to);
    expect(again.recovered).toMatch(/260 sittings and 31200 passes/);
    expect(await again.readBook()).toEqual(sortBook(long));
  });

  test('is left as it was by a merge that is called off, or whose file is another one by then', async () => {
    const [from, to] = [freshName(), freshName()];
    await (await openStore(from)).mergeIn(long);
    const file = await save(from);
    const store = await openStore(to);
    const offer = await check(file);
    if (!offer.ok) throw new Error('not sound');
    const { checksum } = offer;
    const stop = new AbortController();
    const stopped = runBackupJob(
      stop.signal,
      'merge',
      { book: to, file, checksum, exportedAt: 0 },
      ({ stage, share }) => {
        if (stage === 'merging' && share > 0) stop.abort();
      },
    );
    await expect(stopped).rejects.toMatchObject({ name: 'AbortError' });
    expect(await store.readBook()).toEqual(emptyBook());

    const other = new Blob([writeBackup({ ...long, settings: [] }, NOW)]);
    await expect(
      runBackupJob(never, 'merge', { book: to, file: other, checksum, exportedAt: 0 }),
    ).rejects.toThrow('changed after it had been read');
    expect(await store.readBook()).toEqual(emptyBook());
  });

  test('goes on taking marks while it is merged', async () => {
    const [from, to] = [freshName(), freshName()];
    await (await openStore(from)).mergeIn(long);
    const file = await save(from);
    const store = await openStore(to);
    const { endedAt: _endedAt, drills: _drills, log: _log, ...sitting } = EVENING;
    await store.joinSitting({ ...sitting, id: idOf(900) }, () => true);
    await store.beginDrill(drill(901, 900));
    const merging = merge(to, file);
    let number = 902;
    let isOver = false;
    void merging.then(() => (isOver = true));
    while (!isOver) await store.record(pass(number++, 901));
    expect(await merging).toMatchObject({ sittings: 260 });
    expect(number).toBeGreaterThan(905);
    expect((await store.openSitting())?.log).toHaveLength(number - 902);
  });
});

describe('a file', () => {
  test('with the sitting that is open adds to its rows', async () => {
    const name = freshName();
    const store = await openStore(name);
    const { endedAt: _endedAt, drills: _drills, log: _log, ...sitting } = EVENING;
    await store.joinSitting({ ...sitting, id: idOf(900) }, () => true);
    await store.beginDrill(drill(901, 900));
    await store.record(pass(902, 901));
    const file = await save(name);
    const { book } = readBackup(await textOf(file)) as { book: Book };
    const here = book.sittings[0]!;
    const more = { ...book, sittings: [{ ...here, log: [...here.log, pass(903, 901)] }] };
    expect(await merge(name, new Blob([writeBackup(more, NOW)]))).toMatchObject({ sittings: 0, passes: 1 });
    expect((await store.openSitting())?.log.map(({ id }) => id)).toEqual([idOf(902), idOf(903)]);
  });

  test('of any layout of JSON is read, whole', async () => {
    const name = freshName();
    const store = await openStore(name);
    const pretty = JSON.stringify(JSON.parse(writeBackup(SMALL_BOOK, NOW)), null, 2);
    expect(await check(new Blob([pretty]))).toMatchObject({ ok: true, checksum: null });
    expect(await merge(name, new Blob([pretty]))).toEqual({ tunes: 1, sittings: 1, passes: 2 });
    expect(await store.readBook()).toEqual(sortBook(SMALL_BOOK));
  });

  test('that is damaged, cut short, or none, is refused in words', async () => {
    const name = freshName();
    await (await openStore(name)).mergeIn(SMALL_BOOK);
    const packed = await save(name);
    const damageOf = async (blob: Blob): Promise<string> => {
      const offer = await check(blob);
      return offer.ok ? 'sound' : (offer.damage[0] ?? '');
    };
    expect(await damageOf(packed)).toBe('sound');
    expect(await damageOf(packed.slice(0, packed.size - 40))).toBe(
      'the packed file is damaged, or was cut short',
    );
    const text = await textOf(packed);
    expect(await damageOf(new Blob([text.slice(0, 700)]))).toMatch(
      /^the file (ends too soon|is not JSON) at line 10, column/,
    );
    expect(await damageOf(new Blob([text.replace('"clean"', '"stumbled"')]))).toMatch(
      /^the checksum does not fit/,
    );
    expect(await damageOf(new Blob([]))).toBe('the file is empty');
    expect(await damageOf(new Blob(['not a book']))).toBe(
      'the file is not a Phrasewright backup: those end in .json.gz or .json',
    );
  });

  test('that unpacks to far more than a backup may hold is given up', async () => {
    const zeros = new Blob(Array.from({ length: 64 }, () => new Uint8Array(1_000_000)));
    const bomb = await new Response(zeros.stream().pipeThrough(new CompressionStream('gzip'))).blob();
    expect(bomb.size).toBeLessThan(100_000);
    expect(await check(bomb)).toEqual({ ok: false, damage: ['the file has a line that is too long'] });
  });
});

test('a damaged row is left out of a backup, and named, so that the rest can be read', async () => {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  await new Promise<void>((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onerror = () => reject(request.error ?? new Error('not opened'));
    request.onsuccess = () => {
      const transaction = request.result.transaction('sittings', 'readwrite');
      // sound enough for the app, and not for a backup
      transaction.objectStore('sittings').put({ ...EVENING, id: idOf(300), minutes: 9999 });
      transaction.oncomplete = () => {
        request.result.close();
        resolve();
      };
    };
  });
  const job = { book: name, now: NOW, name: 'a.json', isPacked: false };
  const { file, leftOut, damage, counts } = await runBackupJob(never, 'save', job);
  expect(leftOut).toEqual([expect.stringContaining('minutes: 9999 is outside 0 to 1440')]);
  expect([damage, counts.sittings]).toEqual([[], 1]);
  expect(await check(file)).toMatchObject({ ok: true });
});

test('a copy in a folder is written over when the new one is whole, and not before', async () => {
  const name = freshName();
  const store = await openStore(name);
  await store.mergeIn(SMALL_BOOK);
  // a folder of the origin's own file system stands in for one that the learner picked
  const folder = await copyFolder(name);
  const job = { book: name, now: NOW, name: 'phrasewright.json.gz', isPacked: true, folder };
  const read = async (): Promise<string> => textOf(await (await folder.getFileHandle(job.name)).getFile());
  expect(await runBackupJob(never, 'keep', job)).toMatchObject({ damage: [], leftOut: [] });
  const first = await read();
  expect(readBackup(first)).toMatchObject({ ok: true, book: sortBook(SMALL_BOOK) });

  await store.mergeIn(longBook(300, 50));
  const stop = new AbortController();
  const stopped = runBackupJob(stop.signal, 'keep', job, () => stop.abort());
  await expect(stopped).rejects.toMatchObject({ name: 'AbortError' });
  expect(await read()).toBe(first);
  expect(await runBackupJob(never, 'keep', job)).toMatchObject({ counts: { sittings: 301 } });
  expect(readBackup(await read())).toMatchObject({ ok: true });
});
