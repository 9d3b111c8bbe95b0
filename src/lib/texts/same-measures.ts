import { listed } from './figures';
import { spoken } from './spoken';

/** Which measures are learned as one, and which nearly could be. Measures by their labels: `A3`. */
export const say = spoken('sameMeasures', {
  asOne: 'Learned as one',
  mark: (mark: string) => `Mark ${mark}`,
  splitShort: 'split',
  splitHow: 'Not really the same? Choose the one to be learned on its own.',
  splitOff: (label: string) => `${label} is not really the same`,
  split: (label: string, others: readonly string[]) =>
    `${label} is learned on its own now and begins without passes. Those so far stay with ${listed(others)}.`,
  nearly: 'Nearly the same',
  join: 'The same: learn them as one',
  /** @param kept each the labels of one figure: `A1, A5` */
  joined: (kept: string, other: string) =>
    `${kept} and ${other} are learned as one now. They show the passes of ${kept}; what was played as ${other} stays in the log.`,
  showMore: (count: number) => `Show ${count} more`,
  none: 'No measure is the same as another, or nearly, as far as their tab tells.',
});
