import { BookStore } from '../../../src/lib/store/book-store';
import { drill, EVENING, idOf, pass, START, WINTER_TUNE } from '../../core/book/made-up-books';

/** What a book holds, in the writer's own terms: ids of passes, and the numbers of the newest tune and setting. */
export interface Holdings {
  passes: string[];
  tune: number;
  setting: number;
  damaged: number;
  /** The second copy had to put something back. */
  isRestored: boolean;
}

/** A write whose promise has resolved. */
export type Kept = { pass: string } | { tune: number } | { setting: number };

declare global {
  function acknowledge(kept: Kept): void;
}

/** Passes between one closing of the sitting and the next. */
const PASSES_A_SITTING = 9;
/** Settings have a range, numbers have none. */
const SCALE = 65_536;

async function holdings(store: BookStore): Promise<Holdings> {
  const { tunes, sittings, settings } = await store.readBook();
  return {
    passes: sittings.flatMap(({ log }) => log.map(({ id }) => id)),
    tune: Number(tunes[0]?.title ?? -1),
    setting: settings[0] ? Number(settings[0].value) * SCALE : -1,
    damaged: store.damaged,
    isRestored: store.recovered !== null,
  };
}

/** Writes sittings, passes, a tune and a setting, one after the other, until the page dies. */
async function write(store: BookStore, from: number): Promise<void> {
  const { endedAt: _endedAt, drills: _drills, log: _log, ...sitting } = EVENING;
  for (let number = from; ;) {
    const sittingId = number++;
    const drillId = number++;
    await store.joinSitting({ ...sitting, id: idOf(sittingId), at: START + sittingId * 1000 }, () => true);
    await store.beginDrill(drill(drillId, sittingId));
    for (let count = 0; count < PASSES_A_SITTING; count += 1) {
      const entry = pass(number++, drillId);
      await store.record(entry);
      globalThis.acknowledge({ pass: entry.id });
    }
    await store.putTune({ ...WINTER_TUNE, title: String(sittingId), editedAt: START + sittingId });
    globalThis.acknowledge({ tune: sittingId });
    await store.putSetting({ key: 'clickVolume', value: sittingId / SCALE, editedAt: START + sittingId });
    globalThis.acknowledge({ setting: sittingId });
    await store.seal(START + number * 1000);
  }
}

/** Reads what the book holds, then writes on from a number. */
async function readThenWrite(from: number): Promise<Holdings> {
  const store = await BookStore.open();
  const held = await holdings(store);
  void write(store, from);
  return held;
}

Object.assign(globalThis, { readThenWrite });
