import { readFileSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';
import type { SealedSitting } from '../../src/lib/core/practice/records';
import { answer, type DeskQuestion } from '../../src/lib/workers/desk-mail';
import { PracticeDesk } from '../../src/lib/workers/practice-desk';

/** The app's practice worker as a thread of Node, with a watch on it. A question of `null` asks for the memory. */
export interface TimedAnswer {
  value: unknown;
  /** Inside the thread, without the mail; of processor where the system tells (other programs then hardly matter), else by the clock. */
  ms: number;
  /** A plain single loop over the records of the question, right before it; 0 without records. */
  loopMs: number;
}

const desk = new PracticeDesk();

/** What the desk is asked here: it is given its log, and reads no book. */
export type Verb = Exclude<keyof PracticeDesk, symbol>;

parentPort?.on('message', (question: DeskQuestion<Verb> | null) => {
  const answering = question === null ? Promise.resolve(memory()) : timed(question);
  void answering.then((answered) => parentPort?.postMessage(answered));
});

async function timed(question: DeskQuestion<Verb>): Promise<TimedAnswer> {
  const records = question.verb === 'add' ? (question.input[0] as SealedSitting[]) : [];
  const before = watch();
  plainLoop(records);
  const between = watch();
  const answered = await answer<Verb>(desk, question);
  if ('error' in answered) throw new Error(answered.error);
  return { value: answered.value, ms: watch() - between, loopMs: between - before };
}

/** ms that this thread has been running for, or by the clock where the system does not tell. */
function watch(): number {
  try {
    return Number(readFileSync('/proc/thread-self/schedstat', 'utf8').split(' ')[0]) / 1e6;
  } catch {
    // no Linux
    return performance.now();
  }
}

let cleanBeats = 0;

/** What a fold that keeps nothing would cost. */
function plainLoop(sittings: readonly SealedSitting[]): void {
  for (const { log } of sittings) {
    for (const entry of log) {
      if (entry.kind === 'pass' && entry.outcome === 'clean') cleanBeats += entry.tempo;
    }
  }
}

function memory(): TimedAnswer {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return { value: Math.round((heapUsed + external) / 1e6), ms: 0, loopMs: cleanBeats > 0 ? 0 : NaN };
}
