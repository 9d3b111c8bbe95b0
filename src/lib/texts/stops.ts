import { ordinalWord } from './number-words';

/** Where a string is stopped: `open`, `second fret`. */
export function stopWords(fret: number): string {
  return fret === 0 ? 'open' : `${ordinalWord(fret)} fret`;
}
