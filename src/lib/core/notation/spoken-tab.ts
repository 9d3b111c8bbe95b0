import { say } from '../../texts/spoken-tab';
import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { compare, divide, toNumber, type Rational } from '../rhythm/rational';
import type { MelodyNote } from '../tune/melody';
import { measureLabel } from '../tune/passage-name';
import type { Stretch } from '../tune/places';
import { pitchName } from '../tune/tuning';
import { slotsPerBeat } from './slots';

/**
 * One stretch in words: `beat one: strike first string second fret; and: drone`; a melody by its pitches: `melody, no tab
 * yet, beat one: D 4`. Chords and words stand before what sounds with them. Beats are counted in their own measure, so that
 * a seam is told as `beat two: ...`.
 */
export function spokenStretch(stretch: Stretch, meter: Meter): string {
  const { figure, measure, fromBeat, toBeat } = stretch;
  const from = beatsToWholeNotes(meter, fromBeat);
  const to = beatsToWholeNotes(meter, toBeat);
  const isInside = ({ onset }: { onset: Rational }) => compare(onset, from) >= 0 && compare(onset, to) < 0;
  const isMelody = figure.strikes === null && figure.melody !== undefined;
  const sounds = isMelody
    ? (figure.melody ?? []).map((note) => ({ onset: note.onset, said: spokenNote(note, meter) }))
    : (figure.strikes ?? []).map((strike) => ({ onset: strike.onset, said: say.strike(strike) }));
  const labels = (measure.labels ?? []).map(({ onset, kind, text }) => ({
    onset,
    said: say.labels[kind](text),
  }));
  const told = placesInWords(labels.filter(isInside), sounds.filter(isInside), meter);
  if (figure.strikes === null && !isMelody) return [say.noTab, ...told].join(', ');
  const heard = (sounds.some(isInside) ? told : [say.silent, ...told]).join('; ');
  return isMelody ? say.melodyOnly(heard) : heard;
}

interface Said {
  onset: Rational;
  said: string;
}

function placesInWords(labels: readonly Said[], sounds: readonly Said[], meter: Meter): string[] {
  const places = new Map<string, { onset: Rational; labels: string[]; sounds: string[] }>();
  const placeOf = (onset: Rational) => {
    const key = onset.join('/');
    const place = places.get(key) ?? { onset, labels: [], sounds: [] };
    places.set(key, place);
    return place;
  };
  for (const { onset, said } of labels) placeOf(onset).labels.push(said);
  for (const { onset, said } of sounds) placeOf(onset).sounds.push(said);
  return [...places.values()]
    .sort((a, b) => compare(a.onset, b.onset))
    .map((place) => {
      const together = say.together(place.sounds);
      return `${spokenPlace(place.onset, meter)}: ${[...place.labels, together].filter(Boolean).join(', ')}`;
    });
}

/** A run of stretches in words, each measure with its label when there are several: `A1, beat one: ...; ... . A2, ...`. */
export function spokenTab(stretches: readonly Stretch[], meter: Meter): string {
  const spoken = stretches.map((stretch) => {
    const words = spokenStretch(stretch, meter);
    return stretches.length > 1 ? `${measureLabel(stretch)}, ${words}` : words;
  });
  return spoken.join('. ');
}

function spokenPlace(onset: Rational, meter: Meter): string {
  const beats = toNumber(divide(onset, meterShape(meter).beat));
  const beat = Math.floor(beats);
  const slot = (beats - beat) * slotsPerBeat(meter);
  const nearest = Math.floor(slot + 1e-9);
  const counted = nearest === 0 ? say.beat(beat + 1) : say.afterBeat(nearest, slotsPerBeat(meter));
  return slot - nearest > 1e-6 ? say.justAfter(counted) : counted;
}

/** `F sharp 4, two beats`: octaves are numbered from C, middle C being C 4 (ISO 16's A 4 = 440 Hz); a beat or less is not told. */
function spokenNote({ pitch, duration, tied }: MelodyNote, meter: Meter): string {
  const beats = toNumber(divide(duration, meterShape(meter).beat));
  const told = Number.isInteger(beats) && beats > 1 ? beats : null;
  return say.note(pitchName(pitch), Math.floor(pitch / 12) - 1, told, tied ?? false);
}
