import { capital, inDate } from '$lib/texts/figures';
import { numberWord } from '$lib/texts/number-words';

/** A small count as the first word of a heading: `Five`; from thirteen on, in figures. */
export const headingNumber = (count: number): string => capital(numberWord(count));

/** `Wednesday 25 November`, in the reader's own time zone. */
export const longDate = (at: number): string =>
  inDate(at, { weekday: 'long', day: 'numeric', month: 'long' });

/** `1 beat`, `2.5 beats`. */
export function beatsInWords(beats: number): string {
  return `${beats} ${beats === 1 ? 'beat' : 'beats'}`;
}
