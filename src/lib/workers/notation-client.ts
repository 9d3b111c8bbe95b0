import type { EntryOptions, EntryRead } from '../core/notation/notation-file';
import { scriptUrl } from '../script-urls';
import { say } from '../texts/import-work';
import type { NotationAnswer, NotationListing, NotationQuestion } from './notation-mail';
import workerUrl from './notation.worker.ts?worker&url';

/** Longer than the largest tunebook takes on a slow phone; a source that takes longer is not worth waiting for. */
const PATIENCE_MS = 10_000;

type Unnumbered<Question> = Question extends unknown ? Omit<Question, 'id'> : never;

/**
 * Reads notation in a worker of its own, which is started by `open` and stopped when it takes longer than ten seconds,
 * when the signal is aborted, and by `close`. Both questions reject with the signal's reason, or with a sentence.
 */
export class NotationClient {
  readonly #startWorker: () => Worker;
  readonly #patienceMs: number;
  #worker: Worker | null = null;
  #asked = 0;

  constructor(startWorker: () => Worker = newWorker, patienceMs = PATIENCE_MS) {
    this.#startWorker = startWorker;
    this.#patienceMs = patienceMs;
  }

  /** Opens a source in the place of the one before. */
  open(signal: AbortSignal, bytes: Uint8Array, name: string): Promise<NotationListing | { refusal: string }> {
    this.close();
    return this.#ask(signal, { verb: 'open', bytes, name });
  }

  /** Reads one tune of the source that was opened last. */
  read(signal: AbortSignal, index: number, options: EntryOptions): Promise<EntryRead> {
    return this.#ask(signal, { verb: 'read', index, options });
  }

  close(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }

  #ask<Value>(signal: AbortSignal, question: Unnumbered<NotationQuestion>): Promise<Value> {
    signal.throwIfAborted();
    const worker = (this.#worker ??= this.#startWorker());
    const id = this.#asked++;
    return new Promise((resolve, reject) => {
      const done = new AbortController();
      const until = { signal: done.signal };
      const giveUp = (reason: unknown): void => {
        clearTimeout(timer);
        done.abort();
        worker.terminate();
        if (this.#worker === worker) this.#worker = null;
        reject(reason instanceof Error ? reason : new Error(String(reason)));
      };
      const timer = setTimeout(() => {
        giveUp(new Error(say.tookTooLong));
      }, this.#patienceMs);
      signal.addEventListener('abort', () => giveUp(signal.reason), until);
      worker.addEventListener('error', (event) => giveUp(new Error(event.message || say.noReader)), until);
      worker.addEventListener(
        'message',
        ({ data }: MessageEvent<NotationAnswer>) => {
          if (data.id !== id) return;
          clearTimeout(timer);
          done.abort();
          if ('error' in data) reject(new Error(data.error));
          else resolve(data.value as Value);
        },
        until,
      );
      worker.postMessage({ ...question, id });
    });
  }
}

function newWorker(): Worker {
  return new Worker(scriptUrl(workerUrl), { type: 'module' });
}
