import { numberWord } from '$lib/core/plan/words';

/** A small count as the first word of a heading: `Five`; from thirteen on, in figures. */
export function headingNumber(count: number): string {
  const word = numberWord(count);
  return word.charAt(0).toUpperCase() + word.slice(1);
}

/** `Wednesday 25 November`, in the reader's own time zone. */
export function longDate(at: number): string {
  const parts = new Intl.DateTimeFormat('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
  }).formatToParts(at);
  return parts
    .map(({ type, value }) => (type === 'literal' ? ' ' : value))
    .join('')
    .replace(/\s+/g, ' ');
}

/** `1 beat`, `2.5 beats`. */
export function beatsInWords(beats: number): string {
  return `${beats} ${beats === 1 ? 'beat' : 'beats'}`;
}
