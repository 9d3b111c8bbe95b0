import { capital, listed } from './figures';
import { midSentence } from './mid-sentence';
import { counted, numberWord } from './number-words';
import { spoken } from './spoken';

/** What a plan says beside its reasons: to whom comes back, to tired hands, of new things, and of what waits. */
export const say = spoken('plan', {
  awayWeeks: (weeks: number) => `It is ${counted(weeks, 'week')} since you last played.`,
  awayMonths: (months: number) => `It is ${counted(months, 'month')} since you last played.`,
  littleFaded: 'Little has faded.',
  faded: (titles: readonly string[]) =>
    titles.length === 1
      ? `${listed(titles)} has likely faded, as any tune does; it comes back faster than it was learned.`
      : `${listed(titles)} have likely faded, as all tunes do; they come back faster than they were learned.`,
  manyFaded: (tunes: number) =>
    `${capital(counted(tunes, 'tune'))} have likely faded, as all tunes do; they come back faster than they were learned.`,
  refreshes: 'Today refreshes what you had, a little slower, and brings nothing new.',

  tiredHands: 'Your hands are tired, so this is short and slow. Stop when it stops being easy.',
  soreHands:
    'Stop if it hurts, tingles or goes numb. If it persists, see a licensed clinician. A day off costs little.',

  askedButHands: 'Your hands ask for less today, so nothing more is begun.',
  askedEnough: (titles: readonly string[]) =>
    `You asked for one more new thing: ${titles.join(' and ')} have new measures today, and that is enough.`,
  askedNothingReady: 'You asked for one more new thing, but no other tune or layer is ready to begin.',
  asked: (title: string, passage: string) =>
    `You asked for one more new thing: ${title}, ${midSentence(passage)}.`,
  askedNoRoom: (title: string, passage: string) =>
    `You asked for one more new thing, but ${title}, ${midSentence(passage)}, does not fit into the minutes.`,

  noMeasures: 'It has no measures to play yet.',
  enoughInTheMaking: (tunes: number) =>
    `Not begun: ${numberWord(tunes)} tunes are in the making, and that is enough at once.`,
  /** `title`: of the day's new thing, where it is known. */
  oneNewThing: (title: string | null) =>
    `Not begun: one new thing a day, and today that is ${title ?? 'another tune'}.`,
  youSaidNotToday: 'You said not today.',
  passTooLong: (least: number, minutes: number) =>
    `One pass takes ${counted(least, 'minute')}, and there are ${numberWord(minutes)} today.`,
  otherNewFirst: (title: string) => `Not begun: one new tune at a time, and ${title} is first.`,
  begunFirst: 'Not begun: what is begun comes first today.',
  otherTuning: (tuning: string, retuning: number, minutes: number) =>
    `It is in ${tuning}: retuning would take ${numberWord(retuning)} of the ${counted(minutes, 'minute')}.`,
  /** `tempo`: of its slowest place; `first`: the title of what comes first today; `null`: none. */
  canWait: (tempo: string | null, goal: string, first: string | null) => {
    const at = tempo === null ? '' : ` at ${tempo} of ${goal}`;
    return `It can wait a day${at}${first === null ? '' : `; ${first} gains more today`}.`;
  },
  wouldBeAPush: 'It would be a push, and your hands ask for less today.',
  isFresh: (tempo: string, ago: string) => `It holds at ${tempo} and is fresh: last played ${ago}.`,
  tooLongForATurn: 'One pass of it is too long for a turn.',
});
