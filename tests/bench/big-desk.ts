import { once } from 'node:events';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';
import { ROOT } from '../../.house/prepare.js';
import type { SealedSitting } from '../../src/lib/core/practice/records';
import type { DeskQuestion } from '../../src/lib/workers/desk-mail';
import type { PracticeDesk } from '../../src/lib/workers/practice-desk';
import { bigBook, type BigBook } from './big-book';
import type { TimedAnswer, Verb } from './desk-thread';

/** Sittings a message, as the store reads them. */
const PIECE = 150;

/** A practice desk in a thread of its own, asked as the app asks it: one question after the other. */
export class DeskThread {
  readonly #worker: Worker;

  private constructor(script: string) {
    this.#worker = new Worker(script);
  }

  /** Bundled as the app's own worker is: what runs TypeScript directly would slow it down. */
  static async start(): Promise<DeskThread> {
    const outDir = path.join(ROOT, '.cache/bench-desk');
    await build({
      ...{ configFile: false, root: ROOT, logLevel: 'silent', publicDir: false },
      build: { outDir, emptyOutDir: true, ssr: 'tests/bench/desk-thread.ts', minify: 'esbuild' },
      ssr: { noExternal: true },
    });
    return new DeskThread(path.join(outDir, 'desk-thread.js'));
  }

  async ask<Asked extends Verb>(
    verb: Asked,
    ...input: Parameters<PracticeDesk[Asked]>
  ): Promise<TimedAnswer & { value: ReturnType<PracticeDesk[Asked]> }> {
    const question: DeskQuestion<Asked> = { id: 0, verb, input };
    return (await this.#send(question)) as TimedAnswer & { value: ReturnType<PracticeDesk[Asked]> };
  }

  /** Heap and buffers after a collection, MB. */
  async memory(): Promise<number> {
    return (await this.#send(null)).value as number;
  }

  async #send(question: DeskQuestion<Verb> | null): Promise<TimedAnswer> {
    this.#worker.postMessage(question);
    const [answered] = (await once(this.#worker, 'message')) as [TimedAnswer];
    return answered;
  }

  async close(): Promise<void> {
    await this.#worker.terminate();
  }
}

export interface FoldedBook extends BigBook {
  thread: DeskThread;
  /** The newest sittings, some thousand passes, not folded yet. */
  newest: SealedSitting[];
  /** ms: in the thread, of a plain loop in it, from the first question to the last answer, and of processor in all threads. */
  foldMs: number;
  loopMs: number;
  wallMs: number;
  cpuMs: number;
}

const NEWEST = 8;
let folded: Promise<FoldedBook> | null = null;

/** The big book on a desk, but for its newest sittings; folded once a run. */
export function foldedBook(): Promise<FoldedBook> {
  return (folded ??= fold());
}

async function fold(): Promise<FoldedBook> {
  const book = bigBook();
  const { tunes, now } = book;
  const older = book.sittings.slice(0, -NEWEST);
  const thread = await DeskThread.start();
  await thread.memory();
  const cpu = process.cpuUsage();
  const before = performance.now();
  let [foldMs, loopMs] = [0, 0];
  const count = ({ ms, loopMs: plain }: TimedAnswer): void => {
    foldMs += ms;
    loopMs += plain;
  };
  count(await thread.ask('begin', { tunes, now, dayStartsAtHour: 4 }));
  for (let from = 0; from < older.length; from += PIECE) {
    const answered = await thread.ask('add', older.slice(from, from + PIECE));
    if (!answered.value) throw new Error('The big book is out of order');
    count(answered);
  }
  const finished = await thread.ask('finish');
  if (!finished.value) throw new Error('The big book is out of order');
  count(finished);
  const wallMs = performance.now() - before;
  const { user, system } = process.cpuUsage(cpu);
  const newest = book.sittings.slice(-NEWEST);
  return { ...book, thread, newest, foldMs, loopMs, wallMs, cpuMs: (user + system) / 1000 };
}
