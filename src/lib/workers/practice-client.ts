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
import type { DeskInput, PracticeDesk } from './practice-desk';

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

  /** Replaces everything that the desk holds. */
  load(input: DeskInput): Promise<void> {
    return this.#ask('load', input);
  }

  /** Takes in one sitting as it stands now: new, grown, or corrected. */
  take(sitting: SealedSitting, now: Moment): Promise<void> {
    return this.#ask('take', sitting, now);
  }

  plan(request: PlanRequest, wishes: PlanWishes): Promise<Plan> {
    return this.#ask('plan', request, wishes);
  }

  alternatives(request: PlanRequest, wishes: PlanWishes, key: PassageKey): Promise<PlanItem[]> {
    return this.#ask('alternatives', request, wishes, key);
  }

  tuneBoard(tuneId: Id, layerId: Id, now: Moment): Promise<TuneBoard> {
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
  weeks(): Promise<Week[]> {
    return this.#ask('weeks');
  }

  explain(passage: Passage, now: Moment): Promise<string[]> {
    return this.#ask('explain', passage, now);
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
