import type { Meter } from '../../../src/lib/core/rhythm/meter';
import { rational } from '../../../src/lib/core/rhythm/rational';
import type { Stretch } from '../../../src/lib/core/tune/places';
import type { Strike } from '../../../src/lib/core/tune/strike';

/** A strike at a sixteenth of the measure. */
export function strikeAt(
  sixteenth: number,
  string: Strike['string'],
  fret: number,
  technique: Strike['technique'] = 'strike',
): Strike {
  return { onset: rational(sixteenth, 16), duration: [1, 16], string, fret, technique };
}

/** A whole measure standing at `index` of part A. */
export function measureAt(index: number, strikes: readonly Strike[] | null, beats = 2): Stretch {
  return {
    part: 'A',
    index,
    measure: { id: `measure-${index}`, figureId: `figure-${index}`, editedAt: 0 },
    figure: { id: `figure-${index}`, beats, strikes, editedAt: 0 },
    fromBeat: 0,
    toBeat: beats,
  };
}

export const METER: Meter = '2/4';
