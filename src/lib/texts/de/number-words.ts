/** Numbers as German says them, for the texts beside this file. */
const NUMBERS = [
  'kein',
  'ein',
  'zwei',
  'drei',
  'vier',
  'fünf',
  'sechs',
  'sieben',
  'acht',
  'neun',
  'zehn',
  'elf',
  'zwölf',
];
const ORDINALS = [
  ...['erste', 'zweite', 'dritte', 'vierte', 'fünfte', 'sechste', 'siebte', 'achte', 'neunte', 'zehnte'],
  ...['elfte', 'zwölfte', 'dreizehnte', 'vierzehnte', 'fünfzehnte', 'sechzehnte', 'siebzehnte'],
  ...['achtzehnte', 'neunzehnte', 'zwanzigste', 'einundzwanzigste', 'zweiundzwanzigste'],
];

/** `zwei`; figures above twelve. For none and one, which follow the gender of their noun, see `counted`. */
export function numberWord(count: number): string {
  return NUMBERS[count] ?? String(count);
}

/** `zweite`, with the ending asked for (`zweiter`, `zweiten`); figures beyond the last fret. */
export function ordinalWord(place: number, ending: '' | 'r' | 'n' | 's' = ''): string {
  const word = ORDINALS[place - 1];
  return word === undefined ? `${place}.` : word + ending;
}

/**
 * `ein Takt`, `eine Stelle`, `keine Stellen`, `zwölf Takte`.
 * @param one the article and the noun of a single one: `eine Stelle`
 * @param many the noun of several: `Stellen`
 */
export function counted(count: number, one: string, many: string): string {
  if (count === 1) return one;
  return `${count === 0 ? 'keine' : numberWord(count)} ${many}`;
}
