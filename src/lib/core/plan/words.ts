import { practiceDay } from '../time/practice-day';
import type { Moment } from '../time/moment';

const SMALL = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** A whole number as it is said: in words up to twelve, in figures above. */
export function numberWord(count: number): string {
  return SMALL[count] ?? String(count);
}

/** `one day`, `five weeks`, `31 measures`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${numberWord(count)} ${count === 1 ? one : many}`;
}

/** `A1 at 61, A2 at 88 and A3 at 71`. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`;
}

/** A tempo as it is said: the nearest whole beat a minute. */
export function tempoWord(tempo: number): string {
  return String(Math.round(tempo));
}

/** How long ago a moment was, in practice days: `today`, `yesterday`, `five weeks ago`. A later moment is `today`. */
export function agoWords(then: Moment, now: Moment): string {
  const days = practiceDay(now) - practiceDay(then);
  if (days <= 0) return 'today';
  if (days === 1) return 'yesterday';
  if (days < 14) return `${counted(days, 'day')} ago`;
  if (days < 70) return `${counted(Math.round(days / 7), 'week')} ago`;
  if (days < 700) return `${counted(Math.round(days / 30.44), 'month')} ago`;
  return `${counted(Math.round(days / 365.25), 'year')} ago`;
}
