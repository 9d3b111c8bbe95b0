import { DAY_MS, MINUTE_MS } from '../../../src/lib/core/time/moment';
import { foldedBook } from '../big-desk';
import { type Figure, median } from '../figure';

const RUNS = 15;

/** Plans for twenty years of practice: again and again on one evening, on a new day, and from the fold that was kept. */
export async function* measure(): AsyncIterable<Figure> {
  const { thread, tunes, now } = await foldedBook();
  const planAt = (at: number) =>
    thread.ask('plan', { now: { ...now, at }, minutes: 20, tuning: null, hands: 'fresh' });
  await planAt(now.at);
  const times: number[] = [];
  for (let run = 1; run <= RUNS; run++) times.push((await planAt(now.at + run * MINUTE_MS)).ms);
  yield { figure: 'plan', value: round(median(times)), unit: 'ms', better: 'lower', target: 50 };
  const days: number[] = [];
  for (let day = 1; day <= RUNS; day++) days.push((await planAt(now.at + day * DAY_MS)).ms);
  yield { figure: 'plan-new-day', value: round(median(days)), unit: 'ms', better: 'lower', target: 50 };

  const answered = await thread.ask('keep');
  if (!answered.value) throw new Error('The big book has no fold that may be kept');
  yield { figure: 'keep', value: round(answered.ms), unit: 'ms', better: 'lower' };
  const { kept } = answered.value;
  const before = performance.now();
  const copy = structuredClone(kept);
  const cloneMs = performance.now() - before;
  const { ms, value } = await thread.ask('resume', { tunes, now, dayStartsAtHour: 4 }, copy, []);
  if (!value) throw new Error('The fold that was kept was not believed');
  const first = await planAt(now.at);
  // a clone stands for reading the rows; the browser's own figure is part of `record`
  const total = 2 * cloneMs + ms + first.ms;
  yield { figure: 'plan-from-kept-fold', value: round(total), unit: 'ms', better: 'lower', target: 1000 };
}

const round = (value: number): number => Math.round(10 * value) / 10;
