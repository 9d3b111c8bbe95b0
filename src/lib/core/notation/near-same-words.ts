import { divide, equal, toNumber } from '../rhythm/rational';
import { meterShape, type Meter } from '../rhythm/meter';
import { placesShowing } from '../tune/layer-figures';
import { nearSame, type NearSame } from '../tune/near-same';
import { numberWord, ordinalWord } from '../../texts/number-words';
import { stopWords } from '../tune/stop-words';
import { measureLabel } from '../tune/passage-name';
import type { Strike } from '../tune/strike';
import { pitchName } from '../tune/tuning';
import type { Figure, Id, Tune } from '../tune/tune';

/** So many differences are told note by note; more are told by their beats. */
const TOLD = 2;

/** How two near-same figures differ: `A8 is A4 but for the last beat: second fret of the first string instead of open`. */
export function nearSameWords(tune: Tune, layerId: Id, near: NearSame): string {
  const [first, second] = [near.first, near.second].map((figure) => {
    const place = placesShowing(tune, layerId, figure.id)[0];
    return place ? measureLabel(place) : 'a measure off the board';
  });
  if (near.differences.length === 0)
    return `${second} sounds the same as ${first}, and is learned on its own.`;
  const where = `${second} is ${first} but for ${whereWords(near)}`;
  if (near.differences.length > TOLD) return `${where}.`;
  const told = near.differences.map(({ onset }) => {
    const at = (figure: Figure): Heard[] => heardAt(figure).filter((note) => equal(note.onset, onset));
    return changeWords(at(near.second), at(near.first));
  });
  return `${where}: ${told.join('; ')}.`;
}

/** Every near-same pair of a layer with its words. */
export function toldNearSame(tune: Tune, layerId: Id): { near: NearSame; words: string }[] {
  return nearSame(tune, layerId).map((near) => ({ near, words: nearSameWords(tune, layerId, near) }));
}

/** Where in its measure a difference lies, in beats from 1: `1.5` is half-way through the first. */
export function countOf(onset: Strike['onset'], meter: Meter): number {
  return 1 + toNumber(divide(onset, meterShape(meter).beat));
}

function whereWords({ within, differences }: NearSame): string {
  if (within) return `the ${within}`;
  const beats = [...new Set(differences.map(({ beat }) => numberWord(beat + 1)))];
  if (beats.length === 1) return `beat ${beats[0]}`;
  return `beats ${beats.slice(0, -1).join(', ')} and ${beats.at(-1)}`;
}

type Heard = Pick<Strike, 'onset'> & { words: string; string?: number; stop?: string };

function heardAt({ strikes, melody = [] }: Figure): Heard[] {
  if (strikes === null) {
    return melody.map(({ onset, pitch }) => ({ onset, words: pitchName(pitch) }));
  }
  return strikes.map(({ onset, string, fret, technique }) => {
    const stop = stopWords(fret);
    const of =
      fret === 0 ? `the open ${ordinalWord(string)} string` : `${stop} of the ${ordinalWord(string)} string`;
    if (technique === 'drone') return { onset, words: 'the drone' };
    if (technique === 'strike') return { onset, words: of, string, stop };
    return { onset, words: `${technique === 'brush' ? 'brush from' : `${technique},`} ${of}` };
  });
}

function changeWords(now: readonly Heard[], before: readonly Heard[]): string {
  const [one, other] = [now[0], before[0]];
  const isOneEach = now.length === 1 && before.length === 1;
  if (isOneEach && one?.string && one.string === other?.string && other.stop && one.words !== other.words) {
    const to = one.stop === 'open' ? one.words : `${one.stop} of the ${ordinalWord(one.string)} string`;
    return `${to} instead of ${other.stop === 'open' ? 'open' : `the ${other.stop}`}`;
  }
  const [here, there] = [now, before].map((notes) => notes.map(({ words }) => words).join(' with '));
  if (here === there) return `${here}, held or fingered otherwise`;
  return `${here || 'nothing'} instead of ${there || 'nothing'}`;
}
