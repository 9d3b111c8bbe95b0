import { spoken } from './spoken';

/** How a note is sounded and weighted, by the names that records have for it. */
export const say = spoken('techniques', {
  names: {
    strike: 'strike',
    brush: 'brush',
    drone: 'drone',
    'drop-thumb': 'drop-thumb',
    'hammer-on': 'hammer-on',
    'pull-off': 'pull-off',
    slide: 'slide',
    tie: 'tie',
  },
  weights: { ghost: 'ghost', accent: 'accent' },
});
