import type { say } from '../spoken-tab';
import { numberWord, ordinalWord } from './number-words';
import { beatWord, stopWords } from './stops';
import { techniques } from './techniques';

const COUNTED: Record<number, readonly string[]> = { 2: ['und'], 3: ['und', 'a'], 4: ['e', 'und', 'a'] };
const SIGNS: Record<string, string> = { e: 'e', '&': 'und', a: 'a' };
const NAMES: Record<string, string> = techniques.names;

/** `Fis`; a B is the note under C here as in every tab, not the one that German calls so. */
const noteName = (name: string): string => name.replace('#', 'is');

export const spokenTab: typeof say = {
  noTab: 'noch keine Tabulatur',
  silent: 'stumm',
  melodyOnly: (told) => `Melodie, noch keine Tabulatur, ${told}`,
  labels: {
    chord: (text) => `Akkord ${text}`,
    word: (text) => `Wort ${text}`,
  },
  together: (sounds) => sounds.join(', dazu '),

  beat: (beat) => `Schlag ${beatWord(beat)}`,
  inBeat: (beat) => `in Schlag ${beatWord(beat)}`,
  afterBeat: (slot, slots) => COUNTED[slots]?.[slot - 1] ?? 'später',
  justAfter: (place) => `kurz nach ${place}`,
  placeOfBeat: (beat, sign, slot, slots) =>
    `Schlag ${beatWord(beat)}, ${SIGNS[sign] ?? `Platz ${slot} von ${slots}`}`,

  strike: ({ technique, string, fret, finger, weight }) => {
    const stop = stopWords(fret);
    const by = `${finger ? ` Finger ${finger}` : ''}${weight ? `, ${techniques.weights[weight]}` : ''}`;
    if (technique === 'drone') return `${fret === 0 ? 'Bordun' : `Bordun ${stop}`}${by}`;
    const place = `${ordinalWord(string)} Saite ${stop}${by}`;
    if (technique === 'tie') return `${place}, klingt weiter`;
    if (technique === 'brush') return `Brush ab ${ordinalWord(string, 'r')} Saite ${stop}${by}`;
    return `${NAMES[technique] ?? technique} ${place}`;
  },
  note: (name, octave, beats, isTied) => {
    const length = beats === null ? '' : `, ${numberWord(beats)} Schläge`;
    return `${noteName(name)} ${octave}${length}${isTied ? ', klingt weiter' : ''}`;
  },
  melody: (notes) => `Melodie ${notes.join(' und ')}`,
  melodyNote: (name, isHeld) => noteName(name) + (isHeld ? ' gehalten' : ''),
};
