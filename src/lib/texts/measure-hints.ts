import { ordinalWord } from './number-words';
import { spoken } from './spoken';

/** What a player would look at twice in a measure that is written. */
export const say = spoken('measureHints', {
  pastTheNeck: (string: number, fret: number, last: number) =>
    `The ${ordinalWord(string)} string has no fret ${fret} on most necks: it ends at ${last} here.`,
  hammerOn: (string: number, fret: number) =>
    `The hammer-on to fret ${fret} on the ${ordinalWord(string)} string does not come from a lower fret.`,
  pullOff: (string: number, fret: number) =>
    `The pull-off to fret ${fret} on the ${ordinalWord(string)} string does not come from a higher fret.`,
  tie: (string: number) => `The tie on the ${ordinalWord(string)} string has no note of its fret before it.`,
  stretch: (beat: number, low: number, high: number) =>
    `Beat ${beat} goes from fret ${low} to fret ${high}: a long stretch.`,
});
