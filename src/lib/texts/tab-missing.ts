import { listed } from './figures';
import { spoken } from './spoken';

/** What cannot be heard because it is not written yet. */
export const say = spoken('tabMissing', {
  all: 'No tab yet: only the click.',
  /** Labels of measures: `A2`. */
  some: (labels: readonly string[]) =>
    `${listed(labels)} ${labels.length > 1 ? 'have' : 'has'} no tab yet: only the click there.`,
});
