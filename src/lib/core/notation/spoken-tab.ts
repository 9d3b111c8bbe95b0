import { beatsToWholeNotes, meterShape, type Meter } from '../rhythm/meter';
import { compare, divide, toNumber } from '../rhythm/rational';
import { measureLabel } from '../tune/passage-name';
import type { Stretch } from '../tune/places';
import type { Strike } from '../tune/strike';
import { slotsPerBeat } from './slots';

const NUMBERS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const ORDINALS = [
  'open',
  ...['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'],
  ...['eleventh', 'twelfth', 'thirteenth', 'fourteenth', 'fifteenth', 'sixteenth', 'seventeenth'],
  ...['eighteenth', 'nineteenth', 'twentieth', 'twenty-first', 'twenty-second'],
];

/** How the places after a beat are counted aloud, by the slots of a beat (common practice). */
const COUNTED: Record<number, readonly string[]> = { 2: ['and'], 3: ['and', 'a'], 4: ['e', 'and', 'a'] };

/**
 * One stretch of tab in words: `beat one: strike first string second fret; and: drone`. Beats are counted in their own
 * measure, so that a seam is told as `beat two: ...`.
 */
export function spokenStretch({ figure, fromBeat, toBeat }: Stretch, meter: Meter): string {
  if (figure.strikes === null) return 'no tab yet';
  const from = beatsToWholeNotes(meter, fromBeat);
  const to = beatsToWholeNotes(meter, toBeat);
  const heard = figure.strikes.filter(({ onset }) => compare(onset, from) >= 0 && compare(onset, to) < 0);
  if (heard.length === 0) return 'silent';
  const places = new Map<string, { place: string; words: string[] }>();
  for (const strike of heard) {
    const key = strike.onset.join('/');
    const told = places.get(key) ?? { place: spokenPlace(strike, meter), words: [] };
    told.words.push(spokenStrike(strike));
    places.set(key, told);
  }
  return [...places.values()].map(({ place, words }) => `${place}: ${words.join(' with ')}`).join('; ');
}

/** A run of stretches in words, each measure with its label when there are several: `A1, beat one: ...; ... . A2, ...`. */
export function spokenTab(stretches: readonly Stretch[], meter: Meter): string {
  const spoken = stretches.map((stretch) => {
    const words = spokenStretch(stretch, meter);
    return stretches.length > 1 ? `${measureLabel(stretch)}, ${words}` : words;
  });
  return spoken.join('. ');
}

function spokenPlace({ onset }: Strike, meter: Meter): string {
  const beats = toNumber(divide(onset, meterShape(meter).beat));
  const beat = Math.floor(beats);
  const slot = (beats - beat) * slotsPerBeat(meter);
  const name = NUMBERS[beat] ?? String(beat + 1);
  if (slot === 0) return `beat ${name}`;
  const nearest = Math.floor(slot + 1e-9);
  const counted = nearest === 0 ? `beat ${name}` : (COUNTED[slotsPerBeat(meter)]?.[nearest - 1] ?? 'later');
  return slot - nearest > 1e-6 ? `just after ${counted}` : counted;
}

function spokenStrike({ string, fret, technique }: Strike): string {
  const stop = fret === 0 ? 'open' : `${ORDINALS[fret] ?? `${fret}th`} fret`;
  if (technique === 'drone') return fret === 0 ? 'drone' : `drone ${stop}`;
  const place = `${ORDINALS[string]} string ${stop}`;
  return technique === 'brush' ? `brush from ${place}` : `${technique} ${place}`;
}
