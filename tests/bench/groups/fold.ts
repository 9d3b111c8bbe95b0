import { foldedBook } from '../big-desk';
import type { Figure } from '../figure';

/** Twenty years of practice folded by the app's own desk in a thread of its own, then played on pass by pass. */
export async function* measure(): AsyncIterable<Figure> {
  const { thread, newest, now, foldMs, loopMs, wallMs, cpuMs } = await foldedBook();
  const reference = { name: 'plain single loop over the same records', value: round(loopMs) };
  yield { figure: 'fold', value: round(foldMs), unit: 'ms', better: 'lower', target: 5000, reference };
  yield { figure: 'fold-ratio', value: round(foldMs / loopMs), unit: 'times that loop', better: 'lower' };
  // the mail to the thread and, where the machine is busy with other work, its waiting too
  yield { figure: 'fold-with-mail', value: round(wallMs), unit: 'ms', better: 'lower' };
  yield { figure: 'fold-with-mail-processor', value: round(cpuMs), unit: 'ms of processor', better: 'lower' };
  yield { figure: 'fold-memory', value: await thread.memory(), unit: 'MB', better: 'lower', target: 300 };

  let [passes, updateMs] = [0, 0];
  for (const sitting of newest) {
    for (let entries = 1; entries <= sitting.log.length; entries++) {
      const { value, ms } = await thread.ask('take', { ...sitting, log: sitting.log.slice(0, entries) }, now);
      if (!value) throw new Error('A pass was not taken in');
      passes += 1;
      updateMs += ms;
    }
    updateMs += (await thread.ask('seal', sitting, now)).ms;
  }
  yield {
    figure: 'standings-update',
    value: round((1000 * updateMs) / passes),
    unit: 'us a pass, over the newest thousand',
    better: 'lower',
    target: 100,
  };
}

const round = (value: number): number => Math.round(10 * value) / 10;
