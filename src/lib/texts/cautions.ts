import { spoken } from './spoken';

/** What a learner should know to keep hands and ears well. */
export const say = spoken('cautions', {
  hands: 'Hands',
  handsStop: 'Stop if it hurts, tingles or goes numb. If it persists, see a licensed clinician.',
  handsWarmUp:
    'Warm up before you push a tempo, and avoid sudden increases: add minutes to a day little by little.',
  breaks: 'Breaks',
  breaksMean:
    'Some five minutes off in every half hour, or ten in the hour, is what teachers advise: a custom that nobody has put to a test. If your hands ask for one sooner, take it.',
  ears: 'Ears',
  earsMean:
    'Keep the click just loud enough to follow, most of all in headphones. A phone cannot measure how loud it is at your ear. If your ears ring or feel dull afterwards, turn it down and rest them; if it persists, see a licensed clinician.',
});
