const NUMBER_WORDS = [
  'No',
  'One',
  'Two',
  'Three',
  'Four',
  'Five',
  'Six',
  'Seven',
  'Eight',
  'Nine',
  'Ten',
  'Eleven',
  'Twelve',
];

/** A small count as the first word of a heading; from thirteen on, in figures. */
export function numberWord(count: number): string {
  return NUMBER_WORDS[count] ?? String(count);
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
