import { say } from '$lib/texts/controls';
import { capital, inDate } from '$lib/texts/figures';
import { numberWord } from '$lib/texts/number-words';

/** A small count as the first word of a heading: `Five`; from thirteen on, in figures. */
export const headingNumber = (count: number): string => capital(numberWord(count));

/** `Wednesday 25 November`, in the reader's own time zone. */
export const longDate = (at: number): string =>
  inDate(at, { weekday: 'long', day: 'numeric', month: 'long' });

/** `1 beat`, `2.5 beats`. */
export const beatsInWords = (beats: number): string => say.beats(beats);
