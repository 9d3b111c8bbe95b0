import { say } from '../../texts/spoken-tab';
import { equal, type Rational } from '../rhythm/rational';
import { compareNotes, type MelodyNote } from '../tune/melody';
import { pitchName } from '../tune/tuning';
import { staffPlace } from './staff-steps';

/** The melody at one place of a measure, by the names of its pitches. */
export interface MelodyName {
  /** From the highest down; in brackets where a note is held over, as a tie is in tab. */
  text: string;
  spoken: string;
  /** How high the highest stands over the lowest note of the measure, in steps of the scale. */
  lift: number;
}

/** What the melody sounds at each of some places; `null` where no note begins. */
export function melodyNames(
  melody: readonly MelodyNote[],
  places: readonly { onset: Rational }[],
): (MelodyName | null)[] {
  const low = Math.min(...melody.map(stepOf));
  return places.map(({ onset }) => {
    const notes = melody.filter((note) => equal(note.onset, onset)).sort(compareNotes);
    const [highest] = notes;
    if (!highest) return null;
    return {
      text: notes.map(({ pitch, tied }) => (tied ? `(${pitchName(pitch)})` : pitchName(pitch))).join(' '),
      spoken: say.melody(notes.map(({ pitch, tied }) => say.melodyNote(pitchName(pitch), tied ?? false))),
      lift: stepOf(highest) - low,
    };
  });
}

function stepOf({ pitch }: MelodyNote): number {
  return staffPlace(pitch).step;
}
