const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const ORDINALS = [
  ...['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'],
  ...['eleventh', 'twelfth', 'thirteenth', 'fourteenth', 'fifteenth', 'sixteenth', 'seventeenth'],
  ...['eighteenth', 'nineteenth', 'twentieth', 'twenty-first', 'twenty-second'],
];

/** `two`; `no` for none; figures above ten. */
export function numberWord(count: number): string {
  return NUMBERS[count] ?? String(count);
}

/** `second`; figures beyond the last fret. */
export function ordinalWord(place: number): string {
  return ORDINALS[place - 1] ?? `${place}th`;
}

/** Where a string is stopped: `open`, `second fret`. */
export function stopWords(fret: number): string {
  return fret === 0 ? 'open' : `${ordinalWord(fret)} fret`;
}
