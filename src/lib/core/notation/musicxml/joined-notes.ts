import { add, type Rational } from '../../rhythm/rational';
import { compareNotes } from '../../tune/melody';
import type { ScoreNote } from '../score';

/**
 * The notes of one measure in order: those tied together made one; of a brushed chord its lowest-numbered string. Time grows
 * with the number of notes, however many of them sound at once. Throws a RangeError where durations cannot be added up.
 */
export function joinedNotes(notes: readonly ScoreNote[]): ScoreNote[] {
  const joined: ScoreNote[] = [];
  const endingAt = new Map<string, number[]>();
  for (const note of notes.toSorted(compareNotes)) {
    const before = note.tied ? endingAt.get(placeKey(note, note.onset))?.pop() : undefined;
    const held = before === undefined ? undefined : joined[before];
    const index = before ?? joined.length;
    joined[index] = held ? { ...held, duration: add(held.duration, note.duration) } : note;
    const end = placeKey(note, add(note.onset, note.duration));
    const others = endingAt.get(end) ?? [];
    others.push(index);
    endingAt.set(end, others);
  }
  return withoutRestOfBrush(joined);
}

function withoutRestOfBrush(notes: readonly ScoreNote[]): ScoreNote[] {
  const lowest = new Map<string, number>();
  for (const { onset, fingering } of notes) {
    if (fingering?.technique !== 'brush') continue;
    const place = onset.join('/');
    lowest.set(place, Math.min(fingering.string, lowest.get(place) ?? fingering.string));
  }
  return notes.filter(
    ({ onset, fingering }) =>
      fingering?.technique !== 'brush' || fingering.string === lowest.get(onset.join('/')),
  );
}

/** One string for what can be tied: a place, a pitch and a string. */
function placeKey({ pitch, fingering }: ScoreNote, place: Rational): string {
  return `${place.join('/')} ${pitch} ${fingering?.string ?? ''}`;
}
