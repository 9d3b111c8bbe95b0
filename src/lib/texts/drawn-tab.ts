import { spoken } from './spoken';

/** Words that stand in a drawing of tab, in its full size and where a measure is narrow. */
export const say = spoken('drawnTab', {
  hidden: 'hidden',
  noTab: { wide: 'no tab yet', narrow: 'no tab' },
  melody: { wide: 'melody, no tab yet', narrow: 'melody' },
});
