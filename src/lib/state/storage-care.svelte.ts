import type { BookCounts } from '$lib/core/book/book';
import type { AsideRow, SecondCopyState } from '$lib/store/book-store';
import { app } from './app.svelte';
import { momentNow } from './clock';
import { download } from './hand-out-file';

/** The browser's word on keeping the book; `null`: not known yet. */
type BrowserWord = 'given' | 'not given' | 'cannot be asked' | null;

const ASKED = 'phrasewright-asked-to-keep';
/** A browser that did not promise may when the app has been in use for longer; some of them ask the learner each time. */
const ASK_AGAIN_MS = 30 * 86_400_000;

/** Where the book is kept, for how long the browser will, what it holds, and what in it is damaged. */
class StorageCare {
  word: BrowserWord = $state(null);
  secondCopy: SecondCopyState | null = $state.raw(null);
  aside: readonly AsideRow[] = $state.raw([]);
  /** What the book holds; `null` until it has been looked through. */
  counts: BookCounts | null = $state.raw(null);
  #looking = new AbortController();

  /** Looks at every record, in the background; a later look takes the place of an earlier one. */
  async look(): Promise<void> {
    this.leave();
    const { signal } = (this.#looking = new AbortController());
    await app.open();
    this.secondCopy = app.secondCopy;
    this.word = wordOf(await app.isPersisted());
    try {
      const { counts, aside } = await app.lookThrough(signal);
      if (!signal.aborted) [this.counts, this.aside] = [counts, aside];
    } catch (error) {
      if (!signal.aborted) throw error;
    }
  }

  /** Whoever was waiting for the look has left. */
  leave(): void {
    this.#looking.abort();
  }

  /** Asks the browser to keep the book for good. Some of them ask the learner: call it within a user gesture. */
  async ask(): Promise<void> {
    try {
      localStorage.setItem(ASKED, String(momentNow().at));
    } catch {
      // switched off: it is asked again another time
    }
    this.word = wordOf(await app.persist());
  }

  /** Asks when there is something to keep for the first time, and after a month again. Never rejects. */
  async askOnce(): Promise<void> {
    try {
      if ((await app.isPersisted()) === false && !wasJustAsked()) await this.ask();
    } catch {
      // it may be asked in Settings, which says why it cannot
    }
  }

  /** What is set aside as a file, as it was found. */
  save(row: AsideRow): void {
    const { table, id } = row;
    const text = JSON.stringify({ format: 'phrasewright-set-aside', table, id, row: row.row }, null, 2);
    download(new File([text], `phrasewright-set-aside-${table}-${id}.json`, { type: 'application/json' }));
  }

  async remove(row: AsideRow): Promise<void> {
    await app.removeAside(row);
    await this.look();
  }
}

function wordOf(answer: boolean | null): BrowserWord {
  if (answer === null) return 'cannot be asked';
  return answer ? 'given' : 'not given';
}

function wasJustAsked(): boolean {
  try {
    const askedAt = Number(localStorage.getItem(ASKED) ?? 0);
    return Math.abs(momentNow().at - askedAt) < ASK_AGAIN_MS;
  } catch {
    return true;
  }
}

export const storageCare = new StorageCare();
