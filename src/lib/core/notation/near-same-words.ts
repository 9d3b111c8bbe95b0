import { say } from '../../texts/near-same';
import { divide, equal, toNumber } from '../rhythm/rational';
import { meterShape, type Meter } from '../rhythm/meter';
import { placesShowing } from '../tune/layer-figures';
import { nearSame, type NearSame } from '../tune/near-same';
import { measureLabel } from '../tune/passage-name';
import type { Strike } from '../tune/strike';
import { pitchName } from '../tune/tuning';
import type { Figure, Id, Tune } from '../tune/tune';

/** So many differences are told note by note; more are told by their beats. */
const TOLD = 2;

/** How two near-same figures differ: `A8 is A4 but for the last beat: second fret of the first string instead of open`. */
export function nearSameWords(tune: Tune, layerId: Id, near: NearSame): string {
  const labelOf = ({ id }: Figure) => {
    const place = placesShowing(tune, layerId, id)[0];
    return place ? measureLabel(place) : say.offTheBoard;
  };
  const [first, second] = [labelOf(near.first), labelOf(near.second)];
  if (near.differences.length === 0) return say.sounds(second, first);
  if (near.differences.length > TOLD) return say.differs(second, first, whereWords(near), []);
  const told = near.differences.map(({ onset }) => {
    const at = (figure: Figure): Heard[] => heardAt(figure).filter((note) => equal(note.onset, onset));
    return changeWords(at(near.second), at(near.first));
  });
  return say.differs(second, first, whereWords(near), told);
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
  if (within) return say.within[within];
  return say.inBeats([...new Set(differences.map(({ beat }) => beat + 1))]);
}

interface Heard extends Pick<Strike, 'onset'> {
  words: string;
  /** Of a plain strike, whose fret alone may differ. */
  struck?: { string: number; fret: number };
}

function heardAt({ strikes, melody = [] }: Figure): Heard[] {
  if (strikes === null) {
    return melody.map(({ onset, pitch }) => ({ onset, words: pitchName(pitch) }));
  }
  return strikes.map(({ onset, string, fret, technique }) => {
    if (technique === 'drone') return { onset, words: say.drone };
    if (technique === 'strike') return { onset, words: say.strike(string, fret), struck: { string, fret } };
    return { onset, words: say.technique(technique, string, fret) };
  });
}

function changeWords(now: readonly Heard[], before: readonly Heard[]): string {
  const [one, other] = [now[0]?.struck, before[0]?.struck];
  const isOneEach = now.length === 1 && before.length === 1;
  if (isOneEach && one && other && one.string === other.string && one.fret !== other.fret) {
    return say.otherFret(one.string, one.fret, other.fret);
  }
  const [here, there] = [wordsOf(now), wordsOf(before)];
  return here === there ? say.otherwise(here) : say.change(here, there);
}

function wordsOf(notes: readonly Heard[]): string {
  return say.together(notes.map(({ words }) => words));
}
