import { spoken } from './spoken';

/** `1st`, `2nd`, `3rd`, `11th`. */
function ordinal(number: number): string {
  const tens = number % 100;
  const ending = tens > 10 && tens < 14 ? undefined : ['st', 'nd', 'rd'][(number % 10) - 1];
  return `${number}${ending ?? 'th'}`;
}

/**
 * What is wrong with a record, to stand after its place and a colon. Values and bounds are written as the file writes
 * them, so that they can be found in it.
 */
export const say = spoken('damage', {
  /** The place of an item in a list, from 1. */
  item: (place: number) => ordinal(place),
  record: (place: number) => `${ordinal(place)} record`,
  more: (count: number) => `and ${count} more`,

  notBook: 'the book is not a record',
  notList: 'is not a list',
  tooMany: (most: number) => `has more than ${most} records`,
  twice: (id: string) => `record ${id} stands twice`,
  notField: 'is not a field of this record',
  missing: 'is missing',
  /** By the kind of schema that does not fit. */
  kinds: {
    number: (value: string) => `${value} is not a number`,
    string: (value: string) => `${value} is not text`,
    boolean: (value: string) => `${value} is not true or false`,
    array: (value: string) => `${value} is not a list`,
    strict_object: (value: string) => `${value} is not a record`,
    strict_tuple: (value: string) => `${value} is not a list of its length`,
    record: (value: string) => `${value} is not a record`,
  },
  isNot: (value: string, wanted: string) => `${value} is not ${wanted}`,
  isNotFitting: (value: string) => `${value} is not something else`,
  isNoneOf: (value: string, words: string) => `${value} is not one of ${words}`,

  outside: (value: string, min: number, max: number) => `${value} is outside ${min} to ${max}`,
  notWhole: (value: string) => `${value} is not a whole number`,
  characters: (count: number, min: number, max: number) => `has ${count} characters, not ${min} to ${max}`,
  items: (count: number, min: number, max: number) => `has ${count} items, not ${min} to ${max}`,
  notById: 'holds something other than values by their id',
  notHalves: (value: string) => `${value} is not a multiple of one half`,
  notId: (value: string) => `${value} is not a UUIDv7`,
  notTime: (value: string) => `${value} is not a time in milliseconds between the years 1970 and 2100`,
  notMoment: (value: string) => `${value} is not a moment`,
  notFraction: (value: string) => `${value} is not a fraction in lowest terms`,
  beforeMeasure: (value: string) => `${value} is before the measure`,
  notLength: (value: string) => `${value} is not a length`,
  melodyOrder: 'are not in the order of time, then from the highest pitch',
  strikeOrder: 'are not in the order of time, then of string',
  notCapital: 'is not one capital letter',
  notCapitals: 'is not made of capital letters',
});
