import type { Explanation } from '../core/plan/explain';
import type { Plan, PlanItem, PlanRequest } from '../core/plan/plan';
import type { PlanWishes } from '../core/plan/wishes';
import type { SealedSitting } from '../core/practice/records';
import type { Standing } from '../core/practice/standing';
import type { TuneBoard } from '../core/progress/tune-board';
import type { TuneProgress } from '../core/progress/tune-progress';
import type { TuneSummary } from '../core/progress/tune-summary';
import type { Week } from '../core/progress/weeks';
import type { Moment } from '../core/time/moment';
import type { Passage, PassageKey } from '../core/tune/passage';
import type { Id } from '../core/tune/tune';
import type { DeskAnswer, DeskQuestion, DeskVerb } from './desk-mail';
import type { DeskBook, KeptFold, PracticeDesk } from './practice-desk';

interface Waiting {
  resolve: (value: never) => void;
  reject: (error: Error) => void;
}

/**
 * The practice desk in a worker of its own. Answers come in the order of the questions. What the desk throws, and a
 * worker that fails, rejects the promise with its message; after `close` every question is rejected.
 */
export class PracticeClient {
  readonly #worker = new Worker(new URL('./practice.worker.ts', import.meta.url), { type: 'module' });
  readonly #waiting = new Map<number, Waiting>();
  #asked = 0;
  #closed: string | null = null;

  constructor() {
    this.#worker.addEventListener('message', ({ data }: MessageEvent<DeskAnswer>) => this.#settle(data));
    this.#worker.addEventListener('error', (event) => {
      // a script that cannot be loaded gives an event without a message
      this.#fail(event.message || 'The practice worker could not be started');
    });
    this.#worker.addEventListener('messageerror', () =>
      this.#fail('The practice worker sent what cannot be read'),
    );
  }

  /**
   * Replaces everything that the desk holds; until this resolves it answers by what it had. `sittings` gives the sealed
   * sittings by time, piece by piece, at most twice; `onProgress` hears how many have been folded. Rejects with the
   * signal's reason when it is aborted. Of two loads at a time only the later can be relied on: abort the earlier first.
   */
  async load(
    signal: AbortSignal,
    book: DeskBook,
    sittings: () => AsyncIterable<SealedSitting[]>,
    onProgress: (sittings: number) => void,
  ): Promise<void> {
    await this.#ask('begin', book);
    let done = 0;
    for await (const piece of sittings()) {
      signal.throwIfAborted();
      if (!(await this.#ask('add', piece))) return this.#loadAtOnce(signal, book, sittings);
      done += piece.length;
      onProgress(done);
    }
    signal.throwIfAborted();
    await this.#ask('finish');
  }

  async #loadAtOnce(
    signal: AbortSignal,
    book: DeskBook,
    sittings: () => AsyncIterable<SealedSitting[]>,
  ): Promise<void> {
    const all: SealedSitting[] = [];
    for await (const piece of sittings()) all.push(...piece);
    signal.throwIfAborted();
    await this.#ask('load', book, all);
  }

  /** As `load`, from a fold that was kept; `false`, and nothing is changed, when it cannot be gone on from. */
  resume(book: DeskBook, kept: KeptFold, recent: SealedSitting[]): Promise<boolean> {
    return this.#ask('resume', book, kept, recent);
  }

  /** Takes in the open sitting as it stands now; `false` when the log has to be loaded anew instead. */
  take(sitting: SealedSitting, now: Moment): Promise<boolean> {
    return this.#ask('take', sitting, now);
  }

  /** As `take`, for a sitting that is over. */
  seal(sitting: SealedSitting, now: Moment): Promise<boolean> {
    return this.#ask('seal', sitting, now);
  }

  /** What the fold has become since the last call, to `resume` from; `null` when it must not be kept. */
  keep(): Promise<ReturnType<PracticeDesk['keep']>> {
    return this.#ask('keep');
  }

  plan(request: PlanRequest, wishes: PlanWishes): Promise<Plan> {
    return this.#ask('plan', request, wishes);
  }

  alternatives(request: PlanRequest, wishes: PlanWishes, key: PassageKey): Promise<PlanItem[]> {
    return this.#ask('alternatives', request, wishes, key);
  }

  tuneBoard(tuneId: Id, layerId: Id | null, now: Moment): Promise<TuneBoard> {
    return this.#ask('tuneBoard', tuneId, layerId, now);
  }

  standing(passage: Passage, now: Moment): Promise<Standing> {
    return this.#ask('standing', passage, now);
  }

  tuneList(now: Moment): Promise<TuneSummary[]> {
    return this.#ask('tuneList', now);
  }

  progress(tuneId: Id, now: Moment): Promise<TuneProgress> {
    return this.#ask('progress', tuneId, now);
  }

  /** Practice week by week, all tunes together. */
  weeks(now: Moment): Promise<Week[]> {
    return this.#ask('weeks', now);
  }

  /** `sittings`: the newest ones that played anything of the passage's tune. */
  explain(passage: Passage, now: Moment, sittings: SealedSitting[]): Promise<Explanation> {
    return this.#ask('explain', passage, now, sittings);
  }

  close(): void {
    this.#worker.terminate();
    this.#fail('The practice desk was closed');
  }

  #ask<Verb extends DeskVerb>(
    verb: Verb,
    ...input: Parameters<PracticeDesk[Verb]>
  ): Promise<ReturnType<PracticeDesk[Verb]>> {
    return new Promise((resolve, reject) => {
      if (this.#closed !== null) {
        reject(new Error(this.#closed));
        return;
      }
      const id = this.#asked++;
      this.#waiting.set(id, { resolve, reject });
      const question: DeskQuestion<Verb> = { id, verb, input };
      this.#worker.postMessage(question);
    });
  }

  #settle(answer: DeskAnswer): void {
    const waiting = this.#waiting.get(answer.id);
    this.#waiting.delete(answer.id);
    if ('error' in answer) waiting?.reject(new Error(answer.error));
    else waiting?.resolve(answer.value as never);
  }

  #fail(message: string): void {
    this.#closed = message;
    for (const { reject } of this.#waiting.values()) reject(new Error(message));
    this.#waiting.clear();
  }
}
