import type { say } from '../techniques';

export const techniques: typeof say = {
  names: {
    strike: 'Anschlag',
    brush: 'Brush',
    drone: 'Bordun',
    'drop-thumb': 'Drop-Thumb',
    'hammer-on': 'Hammer-on',
    'pull-off': 'Pull-off',
    slide: 'Slide',
    tie: 'Haltebogen',
  },
  weights: { ghost: 'Geisternote', accent: 'Akzent' },
};
