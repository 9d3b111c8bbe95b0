import type { Explanation } from '../core/plan/explain';
import type { Plan, PlanItem, PlanRequest } from '../core/plan/plan';
import type { PlanWishes } from '../core/plan/wishes';
import type { SealedSitting } from '../core/practice/records';
import type { Standing } from '../core/practice/standing';
import type { RepertoireMonth } from '../core/progress/repertoire-months';
import type { TuneBoard } from '../core/progress/tune-board';
import type { TuneProgress } from '../core/progress/tune-progress';
import type { TuneSummary } from '../core/progress/tune-summary';
import type { Week } from '../core/progress/weeks';
import type { Moment } from '../core/time/moment';
import type { Passage, PassageKey } from '../core/tune/passage';
import type { Id } from '../core/tune/tune';
import { say } from '../texts/app';
import { scriptUrl } from '../script-urls';
import type { DeskAnswer, DeskQuestion, DeskVerb } from './desk-mail';
import type { BookToRead, LogDesk } from './log-desk';
import workerUrl from './practice.worker.ts?worker&url';

interface Waiting {
  resolve: (value: never) => void;
  reject: (error: Error) => void;
}

/** Who has the client at hand asks within that time, if at all. */
const RETIRES_AFTER_MS = 500;

/**
 * The practice desk in a worker of its own. Answers come in the order of the questions, but for the long ones: `open`, `fold` and
 * `keepFor`. What the desk throws, and a worker that fails, rejects the promise with its message; once it has retired every
 * question is rejected.
 */
export class PracticeClient {
  /** Hears how much of a long log has been folded, 0 to 1. */
  onRead: (share: number) => void = () => undefined;
  readonly #worker = new Worker(scriptUrl(workerUrl), { type: 'module' });
  readonly #waiting = new Map<number, Waiting>();
  #asked = 0;
  #closed: string | null = null;

  constructor() {
    this.#worker.addEventListener('message', ({ data }: MessageEvent<DeskAnswer | { read: number }>) =>
      this.#settle(data),
    );
    this.#worker.addEventListener('error', (event) => {
      // a script that cannot be loaded gives an event without a message
      this.#fail(event.message || say.noPractice);
    });
    this.#worker.addEventListener('messageerror', () => this.#fail(say.badPractice));
  }

  /** See `LogDesk.open`; until this resolves the desk answers by what it had. */
  open(from: BookToRead): Promise<number | null> {
    return this.#ask('open', from);
  }

  /** See `LogDesk.fold`; until this resolves the desk answers by what it had, between the pieces of the log. */
  fold(from: BookToRead): Promise<Awaited<ReturnType<LogDesk['fold']>>> {
    return this.#ask('fold', from);
  }

  /** Takes in the open sitting as it stands now; `false` when the log has to be loaded anew instead. */
  take(sitting: SealedSitting, now: Moment): Promise<boolean> {
    return this.#ask('take', sitting, now);
  }

  /** As `take`, for a sitting that is over. */
  seal(sitting: SealedSitting, now: Moment): Promise<boolean> {
    return this.#ask('seal', sitting, now);
  }

  /** See `LogDesk.keepFor`. */
  keepFor(revision: number): Promise<void> {
    return this.#ask('keepFor', revision);
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

  /** See `LogDesk.standingMeanwhile`. */
  standingMeanwhile(passage: Passage, now: Moment): Promise<Standing> {
    return this.#ask('standingMeanwhile', passage, now);
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

  /** Takes longer than the other questions in a book of many years: ask it when nothing else is waited for. */
  repertoireMonths(count: number, now: Moment): Promise<RepertoireMonth[]> {
    return this.#ask('repertoireMonths', count, now);
  }

  /** `sittings`: the newest ones that played anything of the passage's tune. */
  explain(passage: Passage, now: Moment, sittings: SealedSitting[]): Promise<Explanation> {
    return this.#ask('explain', passage, now, sittings);
  }

  /** Ends the worker once nothing has been asked for a moment and all is answered. */
  async retire(): Promise<void> {
    for (let asked = -1; asked !== this.#asked || this.#waiting.size > 0;) {
      asked = this.#asked;
      await new Promise((resolve) => setTimeout(resolve, RETIRES_AFTER_MS));
    }
    this.#worker.terminate();
    this.#fail(say.practiceClosed);
  }

  #ask<Verb extends DeskVerb>(
    verb: Verb,
    ...input: Parameters<LogDesk[Verb]>
  ): Promise<Awaited<ReturnType<LogDesk[Verb]>>> {
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

  #settle(answer: DeskAnswer | { read: number }): void {
    if ('read' in answer) return this.onRead(answer.read);
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
