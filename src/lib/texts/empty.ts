import { spoken } from './spoken';

/** A book without tunes, and the way in. */
export const say = spoken('empty', {
  noTunes: 'No tunes yet.',
  firstTune: 'A tune to begin with',
  enough: 'Title, tuning, form and measures are enough to begin.',
  whatFollows:
    'You play its first measure right away, and touch the screen to say how it went. Your first plan comes of that.',
  add: 'Add a tune',
  demo: 'Try it with the demo tunes',
  readingDemo: 'Reading the demo tunes',
  demoHolds:
    'Six tunes and ten weeks of a made-up learner’s practice. One touch in Settings takes them out again.',
});
