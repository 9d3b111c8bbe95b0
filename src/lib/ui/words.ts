import { say } from '$lib/texts/controls';
import { inDate } from '$lib/texts/figures';

/** `Wednesday 25 November`, in the reader's own time zone. */
export const longDate = (at: number): string =>
  inDate(at, { weekday: 'long', day: 'numeric', month: 'long' });

/** `1 beat`, `2.5 beats`. */
export const beatsInWords = (beats: number): string => say.beats(beats);
