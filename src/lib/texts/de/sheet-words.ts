import type { say } from '../sheet-words';
import { numberWord } from './number-words';

/** `zweimal`, `16-mal`. */
const times = (count: number): string => `${numberWord(count)}${count > 12 ? '-' : ''}mal`;

export const sheetWords: typeof say = {
  capo: (fret) => `Kapodaster ${fret}`,
  spike: (frets) => `fünfte Saite ${frets} höher`,
  key: (key) => `Tonart ${key}`,
  part: (part, count) => `Teil ${part}${count === 1 ? '' : `, ${times(count)}`}`,
};
