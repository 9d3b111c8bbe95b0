import { listed } from '../figures';
import type { say } from '../tab-missing';

export const tabMissing: typeof say = {
  all: 'Noch keine Tabulatur: nur der Klick.',
  some: (labels) =>
    `${listed(labels)} ${labels.length > 1 ? 'haben' : 'hat'} noch keine Tabulatur: dort nur der Klick.`,
};
