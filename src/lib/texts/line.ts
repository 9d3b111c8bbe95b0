import { spoken } from './spoken';

/** The plan's lines, what an open line offers, and what is said when one changes. */
export const say = spoken('line', {
  isNew: 'new',
  keptIn: 'kept in',
  minutesUnit: 'min',
  restFirst: (minutes: number) => `Put the banjo down for ${minutes} minutes first.`,
  rest: (minutes: number) => `Put the banjo down for ${minutes} minutes.`,
  /** Before the tuning. */
  tuneUpTo: 'Tune up to',

  from: 'from',
  toward: 'toward',
  cleanAt: 'clean at',
  goal: 'goal',
  drillNow: 'Drill it now',
  whyThisTempo: 'Why this tempo',
  keepIn: 'Keep it in',
  notToday: 'Not today',
  earlier: 'Earlier',
  later: 'Later',
  somethingElse: 'Something else instead',
  nothingElse: (minutes: number) => `Nothing else of about ${minutes} minutes waits today.`,
  insteadOf: (passage: string) => `Instead of ${passage}`,
  elseNotRead: 'What else there is could not be read. Close the line and open it again.',

  isLeftOut: (passage: string) => `${passage} is left out today.`,
  takesPlace: (instead: string, passage: string) => `${instead} takes the place of ${passage}.`,
  isNumber: (passage: string, place: number, of: number) => `${passage} is number ${place} of ${of} now.`,
  mayComeBack: (passage: string) => `${passage} may come back today.`,

  /** Before the passage and its tune. */
  leftOutByYou: 'Left out by you:',
  putBack: 'Put back',
  askedNew: 'You asked for one more new thing.',
  notAfterAll: 'Not after all',
  oneMoreNew: 'One more new thing',
  whatWaits: 'What waits, and why',
});
