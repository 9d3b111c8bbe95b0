import { equal } from '../rhythm/rational';
import type { MelodyNote } from '../tune/melody';
import { lastFret, LONG_STRINGS, lowestFret } from '../tune/neck';
import { compareStrikes, type Strike } from '../tune/strike';
import type { Setup } from '../tune/tuning';
import type { MeasureWriting } from './measure-edit';

export interface MelodyOnNeck {
  writing: MeasureWriting;
  /** The notes that no long string reaches, or that find no string free at their place. */
  outOfReach: MelodyNote[];
}

/**
 * The melody as strikes: each note at its lowest fret on the four long strings that are free at its place, the thinner
 * string of two. A proposal for the learner to correct. Lengths are the melody's own.
 */
export function melodyOnNeck(writing: MeasureWriting, setup: Setup): MelodyOnNeck {
  const strikes: Strike[] = [];
  const outOfReach: MelodyNote[] = [];
  for (const note of writing.melody ?? []) {
    const free = LONG_STRINGS.filter(
      (string) => !strikes.some((strike) => strike.string === string && equal(strike.onset, note.onset)),
    );
    const position = lowestFret(note.pitch, free, setup);
    if (!position || position.fret > lastFret(position.string, setup)) {
      outOfReach.push(note);
      continue;
    }
    const { onset, duration, tied } = note;
    strikes.push({ onset, duration, ...position, technique: tied ? 'tie' : 'strike' });
  }
  strikes.sort(compareStrikes);
  return { writing: { ...writing, strikes: strikes.length > 0 ? strikes : null }, outOfReach };
}
