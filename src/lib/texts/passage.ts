import { spoken } from './spoken';

/** Passages as a player would say them, at the head of a line or a sentence. Measures are counted from 1. */
export const say = spoken('passage', {
  tune: 'The whole tune',
  part: (part: string) => `Part ${part}`,
  gone: 'A passage no longer in the tune',
  measure: (measure: number, part: string) => `Measure ${measure}, part ${part}`,
  measures: (first: number, last: number, part: string) => `Measures ${first}–${last}, part ${part}`,
  seam: (first: number, last: number, part: string) => `Seam ${first}–${last}, part ${part}`,
  seamAround: (last: number, part: string) => `Seam ${last}–1, part ${part} again`,
  /** Of two parts; by their labels on the board: `A8`, `B1`. */
  seamBetween: (first: string, last: string) => `Seam ${first}–${last}`,
});
