import { practiceDay } from '../time/practice-day';
import type { Passage } from '../tune/passage';
import { passageName } from '../tune/passage-name';
import { firstLayer } from '../tune/places';
import type { Id, Tune } from '../tune/tune';
import type { Standing } from './standing';
import type { Standings } from './standings';

/** Why a passage stands where it does and begins at the tempo it does, in sentences that a person would say. */
export interface Explanation {
  name: string;
  sentences: string[];
}

/** From the passes that led there to the tempo to begin at. Tempos are rounded to whole beats per minute. */
export function explainPassage(standings: Standings, tune: Tune, passage: Passage): Explanation {
  const standing = standings.of(passage);
  const layerId = 'layerId' in passage ? passage.layerId : firstLayer(tune).id;
  const sentences =
    standing.settled === null
      ? [unplayedSentence(standings, tune, layerId)]
      : [
          playedSentence(standings, standing),
          newestSentence(standings, standing),
          settledSentence(standing, tune.goalTempo),
          rustSentence(standing),
          nightSentence(standing),
          slowestSentence(standings, tune, layerId, standing),
        ];
  sentences.push(`Begin at ${standing.comfortable}: there a clean pass is about 95 % likely.`);
  return { name: passageName(tune, passage), sentences: sentences.filter((sentence) => sentence !== '') };
}

function unplayedSentence(standings: Standings, tune: Tune, layerId: Id): string {
  return standings.tuneSettled(tune, layerId)
    ? 'Not played yet. What to expect of it comes from the measures of this tune that you have played.'
    : 'Not played yet, nor anything else of this tune. What to expect of it comes from its goal tempo.';
}

function playedSentence(
  standings: Standings,
  { passes, days, lastPlayed, cleanOfLast20, ofLast }: Standing,
): string {
  const away = lastPlayed
    ? Math.max(0, standings.today - practiceDay(lastPlayed, standings.dayStartsAtHour))
    : 0;
  const when = away === 0 ? 'today' : away === 1 ? 'yesterday' : `${away} days ago`;
  const clean = ofLast > 0 ? `, ${cleanOfLast20} of the newest ${ofLast} clean` : '';
  return `Played ${count(passes, 'time')} on ${count(days, 'day')}, last ${when}${clean}.`;
}

function newestSentence(standings: Standings, { key }: Standing): string {
  const newest = standings.recentOf(key).slice(-4);
  if (newest.length === 0) return '';
  const said = newest.map(({ outcome, tempo }) => `${outcome} at ${Math.round(tempo)}`);
  return newest.length === 1 ? `The newest pass: ${said[0]}.` : `The newest passes: ${said.join(', ')}.`;
}

function settledSentence({ settled }: Standing, goal: number): string {
  if (!settled) return '';
  const [tempo, low, high] = [settled.tempo, settled.low, settled.high].map(Math.round);
  const sure = `four chances in five that it is between ${low} and ${high}`;
  const share = goal > 0 ? `; the goal is ${Math.round(goal)}` : '';
  return `By its passes it comes out clean 17 times in 20 at about ${tempo}, ${sure}${share}.`;
}

function rustSentence({ rust }: Standing): string {
  if (rust === 'fresh') return '';
  return rust === 'likely faded'
    ? 'It has likely faded since, and the estimate has come down for that.'
    : 'It is beginning to fade, and the estimate has come down a little for that.';
}

function nightSentence({ days, isSettled }: Standing): string {
  if (isSettled) return 'It is settled: it held over a night, at three quarters of the goal or more.';
  return days < 2 ? 'It counts as settled only when it holds on another day, a night later.' : '';
}

function slowestSentence(standings: Standings, tune: Tune, layerId: Id, { key }: Standing): string {
  const slowest = standings.tuneSettled(tune, layerId)?.slowest ?? [];
  const [first, second] = slowest;
  if (first?.key !== key || !second?.settled) return '';
  return `It is what holds the tune back: the next slowest, ${passageName(tune, second.passage)}, is at ${Math.round(second.settled.tempo)}.`;
}

function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}
