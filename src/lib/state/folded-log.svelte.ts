import type { SealedSitting } from '$lib/core/practice/records';
import type { Standing } from '$lib/core/practice/standing';
import type { Passage } from '$lib/core/tune/passage';
import type { BookStore, OpenSitting } from '$lib/store/book-store';
import type { BookToRead } from '$lib/workers/log-desk';
import type { PracticeClient } from '$lib/workers/practice-client';
import { momentNow } from './clock';

/** A fold that is over sooner is not worth a word. */
const SAY_AFTER_MS = 500;

/** What changes the book waits for a fold that is over by then, so that the screens change once. */
const WAITED_MS = 1000;

/** What of the book the worker is to fold. */
interface Source {
  store: () => BookStore;
  dayStartsAtHour: () => number;
  /** The log has been folded behind the screens. */
  onFolded: () => void;
  /** Some of its sittings are no records. */
  onDamaged: () => void;
}

/**
 * The practice worker and the log that it has folded. A start goes on from the fold that was kept where that fits the log
 * to the record. Otherwise the whole log is folded, which takes seconds for a long one: the first time the screens wait for it, but
 * a drill does not; later they go on by the fold before it.
 */
export class FoldedLog {
  /** How much of a long log has been read, 0 to 1; `null` when none is being read, or hardly any. */
  read: number | null = $state(null);
  /** How often the log has been folded anew. */
  folds = $state(0);

  readonly #source: Source;
  #worker: Promise<PracticeClient> | null = null;
  /** The worker, once it stands at a whole log for the first time. */
  #client: Promise<PracticeClient> | null = null;
  /** The log has been folded once: from then on the worker answers by that or by something newer, until it rests. */
  #isWhole = false;
  /** The log's revision that the worker stands at; `null`: not known, so that nothing of it is kept. */
  #revision: number | null = null;
  /** Counts the loads: only the latest goes on, and those before it are done when it is. */
  #loads = 0;
  #newest: Promise<void> = Promise.resolve();

  constructor(source: Source) {
    this.#source = source;
  }

  /** The worker, loaded with the book as it stands, or as it stood a moment ago. */
  client(): Promise<PracticeClient> {
    this.#client ??= this.#load().folded.then(() => this.#started());
    // the next question tries again
    this.#client.catch(() => (this.#client = null));
    return this.#client;
  }

  /** Starts the worker, which takes a moment that something else may use. */
  warmUp(): void {
    // the first question says what is wrong
    this.#started().catch(() => undefined);
  }

  #started(): Promise<PracticeClient> {
    this.#worker ??= import('$lib/workers/practice-client').then(
      ({ PracticeClient }) => new PracticeClient(),
    );
    return this.#worker;
  }

  /**
   * Lets the worker go, whose fold takes more memory than all else on the page in a book of many years. The next question starts
   * another, which goes on from the fold that was kept. Nothing while the log is being folded: that would have to begin again.
   */
  rest(): void {
    const worker = this.#worker;
    if (!worker || this.#revision === null) return;
    [this.#worker, this.#client, this.#revision, this.#isWhole] = [null, null, null, false];
    worker.then((client) => client.retire()).catch(() => undefined);
  }

  /** The worker answers without being waited for. */
  get isWhole(): boolean {
    return this.#isWhole;
  }

  /**
   * Takes the book in anew after it has changed; nothing where it has not been asked for yet. Where a long log has to be folded
   * for it, that goes on behind the screens, and the worker answers by the fold before.
   */
  async reload(): Promise<void> {
    if (!this.#client) return;
    const { answers, folded } = this.#load();
    await answers;
    const isBehind = await Promise.race([folded.then(() => false), afterMs(WAITED_MS)]);
    if (isBehind) folded.then(this.#source.onFolded, () => undefined);
  }

  /** What the log says of a passage; while it is being folded for the first time, what is known of it so far. */
  async standing(passage: Passage, open: OpenSitting | null): Promise<Standing> {
    const client = this.#isWhole ? await this.client() : await this.#meanwhile();
    if (!this.#isWhole) return client.standingMeanwhile(passage, momentNow());
    if (open) await this.take(open);
    return client.standing(passage, momentNow());
  }

  #meanwhile(): Promise<PracticeClient> {
    // begins the first load, unless it has begun
    this.client().catch(() => undefined);
    return this.#started();
  }

  /** Takes in the open sitting as it stands, at the cost of what is new in it. */
  async take(open: OpenSitting): Promise<PracticeClient> {
    const client = await this.client();
    const { sealOpen } = await import('$lib/store/open-sitting');
    if (!(await client.take(sealOpen(open), momentNow()))) await this.reload();
    return client;
  }

  /** Takes in what another tab has played in the open sitting, for every screen that shows it: `false` where none does yet. */
  async follow(open: OpenSitting): Promise<boolean> {
    if (!this.#client) return false;
    await this.take(open);
    this.folds += 1;
    return true;
  }

  /** Takes in a sitting that has just been closed (`null`: nothing was played in it) and keeps the fold for the next start. */
  async seal(sealed: SealedSitting | null): Promise<void> {
    if (!this.#isWhole) return this.reload();
    const client = await this.client();
    const revision = await this.#source.store().logRevision();
    const isNext = this.#revision !== null && revision === this.#revision + 1;
    if (!isNext || (sealed && !(await client.seal(sealed, momentNow())))) {
      await this.reload();
      return;
    }
    this.#revision = revision;
    this.folds += 1;
    this.#keepQuietly(client);
  }

  /** `answers`: the worker can answer, if only by something near; `folded`: it answers by the log as it stands. */
  #load(): { answers: Promise<unknown>; folded: Promise<void> } {
    const load = ++this.#loads;
    this.#revision = null;
    const answers = this.#open(load);
    const folded = answers.then((rest) => rest());
    this.#newest = folded;
    return { answers, folded };
  }

  /** Gives what is left to do. */
  async #open(load: number): Promise<() => Promise<void>> {
    const client = await this.#started();
    const from = await this.#bookToRead();
    const revision = await client.open(from);
    if (load !== this.#loads) return () => this.#newest;
    if (this.#isWhole) this.folds += 1;
    if (revision === null) return () => this.#fold(load, client, from);
    this.#stand(revision);
    return () => Promise.resolve();
  }

  async #bookToRead(): Promise<BookToRead> {
    const store = this.#source.store();
    const [open, { sealOpen }] = await Promise.all([store.openSitting(), import('$lib/store/open-sitting')]);
    const dayStartsAtHour = this.#source.dayStartsAtHour();
    return { name: store.name, now: momentNow(), dayStartsAtHour, open: open && sealOpen(open) };
  }

  async #fold(load: number, client: PracticeClient, from: BookToRead): Promise<void> {
    const began = performance.now();
    client.onRead = (share) => {
      if (performance.now() - began > SAY_AFTER_MS) this.read = share;
    };
    try {
      const { revision, isDamaged } = await client.fold(from);
      if (isDamaged) this.#source.onDamaged();
      if (load === this.#loads) {
        this.#stand(revision);
        this.#keepQuietly(client);
      }
    } catch (error) {
      // a later load has ended this one
      if (load === this.#loads) throw error;
    } finally {
      if (load === this.#loads) this.read = null;
    }
    if (load !== this.#loads) await this.#newest;
  }

  #stand(revision: number | null): void {
    this.#revision = revision;
    this.#isWhole = true;
    this.folds += 1;
  }

  #keepQuietly(client: PracticeClient): void {
    if (this.#revision === null) return;
    // the next start reads the log instead; the log itself is safe
    client.keepFor(this.#revision).catch(() => undefined);
  }
}

function afterMs(ms: number): Promise<true> {
  return new Promise((resolve) => setTimeout(() => resolve(true), ms));
}
