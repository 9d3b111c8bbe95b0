import { say } from '../../texts/typed-tab';
import { meterShape, type Meter } from '../rhythm/meter';
import { compare, subtract, type Rational } from '../rhythm/rational';
import { compareStrikes, type Strike, type Technique } from '../tune/strike';
import type { StringNumber } from '../tune/tuning';
import type { Warnings } from './reading';
import { inSlots, slotsPerBeat } from './slots';
import type { TypedNote } from './typed-tab-notes';

/** The strikes of notes with their onsets, each until the next one or the end of the measure. */
export function strikesAt(
  notes: readonly { onset: Rational; note: TypedNote }[],
  end: Rational,
  meter: Meter,
  warnings: Warnings,
): Strike[] {
  const together = new Map<string, { onset: Rational; notes: TypedNote[] }>();
  for (const { onset, note } of notes) {
    const key = onset.join('/');
    const chord = together.get(key) ?? { onset, notes: [] };
    chord.notes.push(note);
    together.set(key, chord);
  }
  const chords = [...together.values()].sort((a, b) => compare(a.onset, b.onset));
  return chords
    .flatMap(({ onset, notes: chord }, index) => {
      const duration = subtract(chords[index + 1]?.onset ?? end, onset);
      return soundedNotes(chord, onset, meter, warnings).map(({ note, technique }) => ({
        onset,
        duration,
        string: note.string,
        fret: note.fret,
        technique,
        ...(note.weight && { weight: note.weight }),
      }));
    })
    .sort(compareStrikes);
}

interface Sounded {
  note: TypedNote;
  technique: Technique;
}

/**
 * Two or more long strings at once are a brush, kept as its lowest-numbered string. What a mark says on its own (a
 * hammer-on beside a struck string) and the short string sound beside it.
 */
function soundedNotes(
  chord: readonly TypedNote[],
  onset: Rational,
  meter: Meter,
  warnings: Warnings,
): Sounded[] {
  const onString = new Map<StringNumber, TypedNote>();
  for (const note of chord) if (!onString.has(note.string)) onString.set(note.string, note);
  const notes = [...onString.values()].sort((a, b) => a.string - b.string);
  const isMarked = ({ mark }: TypedNote) => mark !== null && mark !== 'brush';
  const alone = notes.filter((note) => note.string === 5 || isMarked(note));
  const brushed = notes.filter((note) => !alone.includes(note));
  const top = brushed[0];
  const fretted = brushed.slice(1).find(({ fret }) => fret > 0);
  if (fretted) {
    warnings.add(fretted.line, fretted.lineColumn, say.brushed(fretted.fret));
  }
  const sounded = alone.map((note) => ({ note, technique: techniqueOf(note, onset, meter) }));
  if (!top) return sounded;
  const technique = brushed.length > 1 || top.mark === 'brush' ? 'brush' : techniqueOf(top, onset, meter);
  return [{ note: top, technique }, ...sounded];
}

function techniqueOf({ mark, string }: TypedNote, onset: Rational, meter: Meter): Technique {
  if (mark === 'thumb') return string === 5 ? 'drone' : 'drop-thumb';
  if (mark === 'finger') return 'strike';
  return mark ?? usualTechnique(string, onset, meter);
}

/**
 * Where no mark says it, the place in the beat does (common practice in down-stroke playing): the short string off the
 * beat is the drone, and an inner string on a place between two down-strokes is the thumb's.
 */
export function usualTechnique(string: StringNumber, onset: Rational, meter: Meter): Technique {
  const [slot, parts] = inSlots(onset, meter);
  const onBeat = parts === 1 && slot % slotsPerBeat(meter) === 0;
  if (string === 5) return onBeat ? 'strike' : 'drone';
  const thumbs = parts === 1 && slot % 2 === 1 && meterShape(meter).division === 2;
  return thumbs && string > 1 ? 'drop-thumb' : 'strike';
}
