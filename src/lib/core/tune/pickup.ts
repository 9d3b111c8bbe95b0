import { beatsToWholeNotes, meterShape } from '../rhythm/meter';
import { add } from '../rhythm/rational';
import type { Place, Stretch } from './places';
import type { Tune } from './tune';

/** The place of a pickup: before the first measure of its part. */
const BEFORE_FIRST = -1;

/** The pickup as the last beats of a measure before the tune's first one; `null` when there is none. */
export function pickupStretch(tune: Tune): Stretch | null {
  const { pickup, meter } = tune;
  const part = tune.form.charAt(0);
  if (!pickup) return null;
  const { beats } = meterShape(meter);
  const fromBeat = beats - pickup.beats;
  const before = beatsToWholeNotes(meter, fromBeat);
  const later = <T extends { onset: Parameters<typeof add>[0] }>(note: T): T => ({
    ...note,
    onset: add(before, note.onset),
  });
  const id = `pickup of ${tune.id}`;
  return {
    ...{ part, index: BEFORE_FIRST, fromBeat, toBeat: beats },
    measure: { id, figureId: id, editedAt: tune.editedAt },
    figure: {
      ...{ id, beats, editedAt: tune.editedAt },
      strikes: pickup.strikes?.map(later) ?? null,
      ...(pickup.melody && { melody: pickup.melody.map(later) }),
    },
  };
}

export function isPickup({ index }: Pick<Place, 'index'>): boolean {
  return index === BEFORE_FIRST;
}
