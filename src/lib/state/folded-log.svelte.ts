import type { SealedSitting } from '$lib/core/practice/records';
import { DAY_MS } from '$lib/core/time/moment';
import type { BookStore, OpenSitting } from '$lib/store/book-store';
import type { PracticeClient } from '$lib/workers/practice-client';
import type { DeskBook } from '$lib/workers/practice-desk';
import { momentNow } from './clock';

/** A fold that is over sooner is not worth a word. */
const SAY_AFTER_MS = 500;

/**
 * The practice worker and the log that it has folded. A start goes on from the fold that was kept where that fits the log
 * to the record, and reads the whole log otherwise.
 */
export class FoldedLog {
  /** How much of a long log has been read, 0 to 1; `null` when none is being read, or hardly any. */
  read: number | null = $state(null);
  /** How often the log has been folded anew. */
  folds = $state(0);

  readonly #store: () => BookStore;
  readonly #dayStartsAtHour: () => number;
  #client: Promise<PracticeClient> | null = null;
  /** The log's revision that the worker stands at; `null`: not known, so that nothing of it is kept. */
  #revision: number | null = null;
  #abort = new AbortController();
  #loading: Promise<void> = Promise.resolve();

  constructor(store: () => BookStore, dayStartsAtHour: () => number) {
    this.#store = store;
    this.#dayStartsAtHour = dayStartsAtHour;
  }

  /** The worker, loaded with the book as it stands. */
  client(): Promise<PracticeClient> {
    this.#client ??= this.#start();
    return this.#client;
  }

  async #start(): Promise<PracticeClient> {
    const { PracticeClient } = await import('$lib/workers/practice-client');
    const client = new PracticeClient();
    await this.#load(client);
    return client;
  }

  /** Reads the log anew after the book has changed; nothing where it has not been asked for yet. */
  async reload(): Promise<void> {
    if (this.#client) await this.#load(await this.#client);
  }

  /** Takes in the open sitting as it stands, at the cost of what is new in it. */
  async take(open: OpenSitting): Promise<PracticeClient> {
    const client = await this.client();
    const { sealOpen } = await import('$lib/store/open-sitting');
    if (!(await client.take(sealOpen(open), momentNow()))) await this.#load(client);
    return client;
  }

  /** Takes in a sitting that has just been closed (`null`: nothing was played in it) and keeps the fold for the next start. */
  async seal(sealed: SealedSitting | null): Promise<void> {
    if (!this.#client) return;
    const client = await this.#client;
    const revision = await this.#store().logRevision();
    const isNext = this.#revision !== null && revision === this.#revision + 1;
    if (!isNext || (sealed && !(await client.seal(sealed, momentNow())))) {
      await this.#load(client);
      return;
    }
    this.#revision = revision;
    this.folds += 1;
    this.#keepQuietly(client);
  }

  /** One load after the other: a later one ends those before it, and they are done when it is. */
  #load(client: PracticeClient): Promise<void> {
    this.#abort.abort();
    const { signal } = (this.#abort = new AbortController());
    const loading = this.#loading
      .catch(() => undefined)
      .then(() => this.#read(signal, client))
      .catch((error: unknown) => {
        if (!signal.aborted) throw error;
        return this.#loading;
      });
    this.#loading = loading;
    return loading;
  }

  async #read(signal: AbortSignal, client: PracticeClient): Promise<void> {
    signal.throwIfAborted();
    const store = this.#store();
    const now = momentNow();
    const book = { tunes: await store.tunes(), now, dayStartsAtHour: this.#dayStartsAtHour() };
    const found = await store.keptFold();
    const recent = await store.sittingsSince(now.at - 2 * DAY_MS);
    const isResumed = found !== null && (await client.resume(book, found.kept, recent));
    const revision = isResumed ? found.revision : await store.logRevision();
    if (!isResumed) await this.#fold(signal, client, book, () => store.sittingsInPieces());
    let isWhole = (await store.logRevision()) === revision;
    const open = await store.openSitting();
    if (open) {
      const { sealOpen } = await import('$lib/store/open-sitting');
      const sitting = sealOpen(open);
      if (!(await client.take(sitting, now))) {
        // its clock was behind the log's: only a fold of all at once puts its passes in their place
        isWhole = false;
        await this.#fold(signal, client, book, () => followedBy(store.sittingsInPieces(), sitting));
      }
    }
    this.#revision = isWhole ? revision : null;
    this.folds += 1;
    if (!isResumed) this.#keepQuietly(client);
  }

  async #fold(
    signal: AbortSignal,
    client: PracticeClient,
    book: DeskBook,
    sittings: () => AsyncIterable<SealedSitting[]>,
  ): Promise<void> {
    const all = Math.max(1, await this.#store().countSittings());
    const began = performance.now();
    try {
      await client.load(signal, book, sittings, (done) => {
        if (performance.now() - began > SAY_AFTER_MS) this.read = Math.min(1, done / all);
      });
    } finally {
      this.read = null;
    }
  }

  #keepQuietly(client: PracticeClient): void {
    const revision = this.#revision;
    if (revision === null) return;
    const keep = async (): Promise<void> => {
      const kept = await client.keep();
      if (kept) await this.#store().keepFold(kept.kept, kept.isWhole, revision);
    };
    // the next start reads the log instead; the log itself is safe
    keep().catch(() => undefined);
  }
}

async function* followedBy(
  pieces: AsyncIterable<SealedSitting[]>,
  last: SealedSitting,
): AsyncIterable<SealedSitting[]> {
  yield* pieces;
  yield [last];
}
