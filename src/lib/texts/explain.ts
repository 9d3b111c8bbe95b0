import { capital, listed } from './figures';
import { midSentence } from './mid-sentence';
import { counted, numberWord } from './number-words';
import { spoken } from './spoken';

/** A settled tempo and where it lies most likely, in whole beats a minute. */
interface Estimate {
  tempo: string;
  low: string;
  high: string;
}

const LONGER = {
  figure: 'a measure',
  seam: 'a join',
  phrase: 'a phrase',
  part: 'a part',
  tune: 'the whole tune',
};
const misses = (count: number): string => `${counted(count, 'miss', 'misses')} somewhere in something longer`;

/** Why a passage stands where it stands. Tempos are whole beats a minute. */
export const say = spoken('explain', {
  tuneGone: 'The tune of this passage is not in the book.',
  passageGone: (title: string) => `${title} has no such passage any more.`,
  notPlayed: (passage: string, title: string, goal: string) =>
    `${passage} of ${title} has not been played yet; the goal is ${goal}.`,
  stands: (passage: string, title: string, { tempo, low, high }: Estimate, goal: string) =>
    `${passage} of ${title} comes out clean 17 times in 20 at ${tempo}, most likely between ${low} and ${high}; the goal is ${goal}.`,

  putAway: 'The tune is put away, so no plan takes it up.',
  notCalledFor: 'Nothing in it calls for a drill now; you can always choose it.',

  beginsSlow: (begin: string) => `A drill begins at ${begin}, slow enough that a clean pass is likely.`,
  beginsAtGoal: (begin: string) => `A drill begins at the goal, ${begin}: more is not asked for.`,
  beginsComfortable: (begin: string) =>
    `A drill begins at ${begin}, where it should come out clean 19 times in 20.`,
  estimateWide: ({ tempo, low, high }: Estimate) =>
    `The estimate is still wide, ${low} to ${high}, so the start lies well under ${tempo}.`,
  estimateNarrow: ({ tempo, low, high }: Estimate) =>
    `The estimate is narrow, ${low} to ${high}, so the start lies near ${tempo}.`,
  climbs: (toward: string) => `From there it climbs toward ${toward}, a few beats at a time.`,

  noPass: 'No pass has been played yet.',
  passes: (passes: number, days: number, clean: number, newest: number) =>
    capital(
      `${counted(passes, 'pass', 'passes')} on ${counted(days, 'day')}: ${clean} of the newest ${newest} were clean.`,
    ),
  /** How many passes of the newest were played as something longer. */
  longer: (newest: number, from: readonly (readonly [kind: keyof typeof LONGER, passes: number])[]) => {
    const words = from.map(
      ([kind, passes], index) =>
        `${numberWord(passes)} ${index === 0 ? 'came ' : ''}from playing ${LONGER[kind]}`,
    );
    return `Of the newest ${newest}, ${listed(words)}.`;
  },
  /** `Tuesday: 4 of 6 clean at 72–80.` `vague`: misses somewhere in something longer; `tempos`: one, or from and to. */
  day: (day: string, { clean, of, vague }: { clean: number; of: number; vague: number }, tempos: string) => {
    if (of === 0) return `${capital(day)}: ${misses(vague)}, at ${tempos}.`;
    return `${capital(day)}: ${clean} of ${of} clean at ${tempos}${vague > 0 ? `, and ${misses(vague)}` : ''}.`;
  },

  /** On the first practice day and on the newest. */
  stood: (first: { tempo: string; day: string }, newest: { tempo: string; day: string }, days: number) =>
    `It stood at ${first.tempo} on the first day, ${first.day}, and at ${newest.tempo} on the newest of ${counted(days, 'day')}, ${newest.day}.`,
  sunk: (from: string, to: string) => `Since then it is expected to have sunk from ${from} to ${to}.`,
  lastPlayed: {
    fresh: (day: string) => `Last played ${day}: still fresh, by the memory model.`,
    'beginning to fade': (day: string) => `Last played ${day}: beginning to fade, by the memory model.`,
    'likely faded': (day: string) => `Last played ${day}: likely faded, by the memory model.`,
  },
  isSettled: 'It counts as settled: that takes two days and three quarters of the goal.',
  notSettled: 'It does not count as settled yet: that takes two days and three quarters of the goal.',

  /** In a list of what a guess goes by. `label`: of a measure; `null`: it has none. */
  measureAt: (label: string | null, tempo: string) => `${label ?? 'a measure'} at ${tempo}`,
  measureNotPlayed: (label: string | null) => `${label ?? 'a measure'} not played yet`,
  guessByEnds: (ends: readonly string[]) =>
    `The guess goes by what it joins, ${listed(ends)}: a join is expected about a tenth slower than its measures.`,
  guessByGoal: 'Nothing in it has been played, so the guess goes by the goal alone.',
  guessBySlowest: (passage: string, tempo: string) =>
    `The guess goes by the slowest link in it, ${midSentence(passage)} at ${tempo}, and a little under.`,
  guessByBook:
    'Nothing of this tune has been played, so the guess goes by what your other measures reach of their goals; without any, by half the goal.',
  guessWithoutTab: (slowest: string, fastest: string) =>
    `Without its tab, the guess goes by the measures of this tune that have been played, ${slowest} to ${fastest}, and by what you usually reach of a goal.`,
  guessByLike: (measures: readonly string[]) =>
    `The guess goes by the measures most like it to the hands, ${listed(measures)}, and by what you usually reach of a goal.`,
});
