import type { RecentPass } from '../practice/passage-state';
import type { Standings } from '../practice/standings';
import { passageName } from '../tune/passage-name';
import { passageKey, type Passage } from '../tune/passage';
import { passageStretches } from '../tune/places';
import type { Tune } from '../tune/tune';
import { candidatesOf } from './candidates';
import { goalOf } from './tune-map';
import { tuneState } from './tune-state';
import { agoWords, counted, tempoWord } from './words';

const PASSES_TOLD = 6;

/**
 * Why a passage stands where it stands, in plain sentences, at the moment of the standings: the estimate, the passes
 * behind it, its memory, where a drill of it begins, and why a plan would take it up. One sentence when its tune, or
 * the passage in it, is gone.
 */
export function explainPassage(tunes: readonly Tune[], standings: Standings, passage: Passage): string[] {
  const tune = tunes.find(({ id, deletedAt }) => id === passage.tuneId && deletedAt === null);
  if (!tune) return ['The tune of this passage is not in the book.'];
  if (passageStretches(tune, passage).length === 0) return [`${tune.title} has no such passage any more.`];
  const { now } = standings;
  const standing = standings.of(passage);
  const name = `${passageName(tune, passage)} of ${tune.title}`;
  const goal = tempoWord(goalOf(tune));
  const begin = `A drill begins at ${tempoWord(standing.comfortable)}, where a clean pass is about 95 in 100.`;
  const why = reasonNow(tune, standings, passage);
  if (!standing.settled || !standing.lastPlayed) {
    return [
      `${name} has not been played yet; the goal is ${goal}.`,
      `${begin} That is a guess from measures like it.`,
      why,
    ];
  }
  const { tempo, low, high } = standing.settled;
  const { passes, days, cleanOfLast20, ofLast, rust, lastPlayed, isSettled } = standing;
  const counts = isSettled ? 'It counts as settled' : 'It does not count as settled yet';
  return [
    `${name} comes out clean 17 times in 20 at ${tempoWord(tempo)} (between ${tempoWord(low)} and ${tempoWord(high)}, most likely); the goal is ${goal}.`,
    `That comes from ${counted(passes, 'pass', 'passes')} on ${counted(days, 'day')}: ${cleanOfLast20} of the newest ${ofLast} were clean.`,
    ...toldPasses(standings.recentOf(passageKey(passage))),
    `${counts}: that takes two days and three quarters of the goal.`,
    `Last played ${agoWords(lastPlayed, now)}: ${rust === 'fresh' ? 'fresh, by the memory model' : `${rust}, by the memory model`}.`,
    begin,
    why,
  ];
}

function toldPasses(recent: readonly RecentPass[]): string[] {
  const told = recent.slice(-PASSES_TOLD).map(({ tempo, outcome }) => `${tempoWord(tempo)} ${outcome}`);
  return told.length > 0 ? [`The newest passes, the last one last: ${told.join(', ')}.`] : [];
}

function reasonNow(tune: Tune, standings: Standings, passage: Passage): string {
  if (tune.archived) return 'The tune is put away, so no plan takes it up.';
  const state = tuneState(tune, standings, standings.now);
  const key = passageKey(passage);
  const found = state && candidatesOf(state, standings.now).find(({ link }) => link.key === key);
  return found
    ? `Why it is next: ${found.reason()}`
    : 'Nothing in it calls for a drill now; you can always choose it.';
}
