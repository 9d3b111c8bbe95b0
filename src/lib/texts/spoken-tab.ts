import { numberWord, ordinalWord } from './number-words';
import { spoken } from './spoken';
import { stopWords } from './stops';

/** How the places after a beat are counted aloud, by the slots of a beat (common practice). */
const COUNTED: Record<number, readonly string[]> = { 2: ['and'], 3: ['and', 'a'], 4: ['e', 'and', 'a'] };
const SIGNS: Record<string, string> = { e: 'e', '&': 'and', a: 'a' };

/** One note of tab in plain values. */
export interface SpokenStrike {
  /** As `techniques` names it. */
  technique: string;
  string: number;
  fret: number;
  finger?: number | undefined;
  weight?: 'ghost' | 'accent' | undefined;
}

/** Tab and melody for someone who hears them read out. */
export const say = spoken('spokenTab', {
  noTab: 'no tab yet',
  silent: 'silent',
  melodyOnly: (told: string) => `melody, no tab yet, ${told}`,
  labels: {
    chord: (text: string) => `chord ${text}`,
    word: (text: string) => `word ${text}`,
  },
  together: (sounds: readonly string[]) => sounds.join(' with '),

  beat: (beat: number) => `beat ${numberWord(beat)}`,
  inBeat: (beat: number) => `in beat ${numberWord(beat)}`,
  /** `slot` from 1. */
  afterBeat: (slot: number, slots: number) => COUNTED[slots]?.[slot - 1] ?? 'later',
  justAfter: (place: string) => `just after ${place}`,
  /** `sign` as it is printed under the place; `slot` from 1, the beat itself. */
  placeOfBeat: (beat: number, sign: string, slot: number, slots: number) =>
    `beat ${numberWord(beat)}, ${SIGNS[sign] ?? `place ${slot} of ${slots}`}`,

  strike: ({ technique, string, fret, finger, weight }: SpokenStrike) => {
    const stop = stopWords(fret);
    const by = `${finger ? ` finger ${finger}` : ''}${weight ? `, ${weight}` : ''}`;
    if (technique === 'drone') return `${fret === 0 ? 'drone' : `drone ${stop}`}${by}`;
    const place = `${ordinalWord(string)} string ${stop}${by}`;
    if (technique === 'tie') return `${place} rings on`;
    return technique === 'brush' ? `brush from ${place}` : `${technique} ${place}`;
  },
  /** `beats`: how long it is held; `null` where that is not told. */
  note: (name: string, octave: number, beats: number | null, isTied: boolean) => {
    const length = beats === null ? '' : `, ${numberWord(beats)} beats`;
    return `${name.replace('#', ' sharp')} ${octave}${length}${isTied ? ' rings on' : ''}`;
  },
  melody: (notes: readonly string[]) => `melody ${notes.join(' and ')}`,
  melodyNote: (name: string, isHeld: boolean) => name.replace('#', ' sharp') + (isHeld ? ' held' : ''),
});
