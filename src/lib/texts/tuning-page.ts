import { spoken } from './spoken';

/** Tuning up for a tune. */
export const say = spoken('tuningPage', {
  title: 'Tune up · Phrasewright',
  backToTunes: '‹ Tunes',
  noTune: 'No such tune in this book.',
  /** The ways back, by where the learner came from. */
  drill: 'The drill',
  today: 'Today',
  back: 'Back',
  /** Before the tuning. */
  tuneUpTo: 'Tune up to',
  /** Under the tuning: what it is called, where that says more than its name, and the tune. */
  forTune: (title: string, called: string | null, capo: number) =>
    `${called === null ? '' : `${called}, `}${capo > 0 ? `capo ${capo}, ` : ''}for ${title}`,
  unchanged: 'The tunes and the log are as they were.',
  /** Before and after the tuning that the banjo is in. */
  fromInHand: { before: 'From', after: ', in hand' },
  stringByString: 'String by string',
  notSaid: 'Which tuning the banjo is in now has not been said on Today, so every string is named.',
  there: 'It is there already. Check it by ear.',
  byEar: 'By ear',
  touch: 'A touch sounds a string, a second touch stills it.',
  touchWithCapo: 'With the capo on. A touch sounds a string, a second touch stills it.',
  goOn: 'Go on',
  isInNow: (tuning: string) => `The banjo is in ${tuning} now`,
});
