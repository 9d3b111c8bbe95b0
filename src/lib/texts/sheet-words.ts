import { numberWord } from './number-words';
import { spoken } from './spoken';

const TIMES: Record<number, string> = { 1: '', 2: ', twice' };

/** What a practice sheet says of the banjo and of the parts. */
export const say = spoken('sheetWords', {
  capo: (fret: number) => `capo ${fret}`,
  spike: (frets: number) => `fifth string up ${frets}`,
  key: (key: string) => `key ${key}`,
  part: (part: string, times: number) => `Part ${part}${TIMES[times] ?? `, ${numberWord(times)} times`}`,
});
