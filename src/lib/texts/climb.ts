import { numberWord } from './number-words';
import { spoken } from './spoken';

/** So many clean passes in a row, or the only one that it takes. */
const clean = (run: number): string => (run === 1 ? 'clean' : `${numberWord(run)} clean`);

/** How a drill's tempo moved after a pass, as an aside; and why a drill is done. Tempos are whole beats a minute. */
export const say = spoken('climb', {
  notMarked: (tempo: number) => `not marked: stay at ${tempo}`,
  byHand: (tempo: number) => `your tempo: ${tempo}`,
  cleanSoFar: (run: number, needed: number, tempo: number) =>
    `${numberWord(run)} clean of ${numberWord(needed)}: stay at ${tempo}`,
  cleanAtTop: (run: number, tempo: number) => `${clean(run)}: stay at ${tempo}, the top of this drill`,
  cleanUp: (run: number, percent: number) => `${clean(run)}: up ${percent} %`,
  cleanToFast: (tempo: number) => `clean: now ${tempo}`,
  cleanBack: (tempo: number, then: number) => `clean: back to ${tempo}, then ${then}`,
  missesBack: (tempo: number) => `two misses: back to ${tempo}`,
  missAtSlowest: (tempo: number) => `a miss: stay at ${tempo}, the slowest`,
  missDown: (percent: number) => `a miss: down ${percent} %`,
  missBeforeFast: (tempo: number) => `a miss: ${tempo} before the fast one`,
  missBack: (tempo: number, then: number) => `a miss: back to ${tempo}, then ${then}`,

  handsTired: (misses: number, newest: number) =>
    `${misses} misses in the last ${newest}: the hands may be tired. Leave it for today.`,
  timeUp: 'The time for this one is up.',
  sureOfIt: (tempo: number) => `Clean at about ${tempo}, and sure of it: enough for today.`,
});
