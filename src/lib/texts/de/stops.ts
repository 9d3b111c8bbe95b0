import { numberWord, ordinalWord } from './number-words';

/** Where a string is stopped: `leer`, `zweiter Bund`. */
export function stopWords(fret: number): string {
  return fret === 0 ? 'leer' : `${ordinalWord(fret, 'r')} Bund`;
}

/** A beat as it is counted: `eins`. */
export function beatWord(beat: number): string {
  return beat === 1 ? 'eins' : numberWord(beat);
}
