import type { PassageKey } from '../tune/passage';
import type { Chosen } from './choose';

/**
 * The items with those that the learner has put in order in that order, inside each run of one tuning: they share the
 * places that they have among the others, which stay where they are.
 */
export function inOwnOrder(items: readonly Chosen[], order: readonly PassageKey[]): Chosen[] {
  if (order.length === 0) return [...items];
  const rank = new Map(order.map((key, index) => [key, index]));
  const runs: Chosen[][] = [];
  for (const item of items) {
    const run = runs.at(-1);
    if (run && run[0]?.state.tuning === item.state.tuning) run.push(item);
    else runs.push([item]);
  }
  return runs.flatMap((run) => {
    const named = run.filter(({ link }) => rank.has(link.key));
    named.sort((a, b) => (rank.get(a.link.key) ?? 0) - (rank.get(b.link.key) ?? 0));
    let next = 0;
    return run.map((item) => (rank.has(item.link.key) ? named[next++]! : item));
  });
}
