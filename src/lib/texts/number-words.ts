/** Numbers as English says them, for the texts beside this file. */
const NUMBERS = [
  ...[
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
  ],
];
const ORDINALS = [
  ...['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'],
  ...['eleventh', 'twelfth', 'thirteenth', 'fourteenth', 'fifteenth', 'sixteenth', 'seventeenth'],
  ...['eighteenth', 'nineteenth', 'twentieth', 'twenty-first', 'twenty-second'],
];

/** `two`; `no` for none; figures above twelve. */
export function numberWord(count: number): string {
  return NUMBERS[count] ?? String(count);
}

/** `second`; figures beyond the last fret. */
export function ordinalWord(place: number): string {
  return ORDINALS[place - 1] ?? `${place}th`;
}

/** `one day`, `five weeks`, `31 measures`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${numberWord(count)} ${count === 1 ? one : many}`;
}
